/* A device is a struct of drawing callbacks; device_play sends it a page list. Coordinates as in pages.h. */
#ifndef TB_DEVICE_DEVICE_H
#define TB_DEVICE_DEVICE_H

#include "base/buf.h"
#include "typeset/pages.h"

typedef struct Device Device;
struct Device {
    void (*begin)(Device *device, const Pages *pages);
    void (*page)(Device *device, const Page *page);
    void (*mark)(Device *device, const Mark *mark);
    void (*page_end)(Device *device);
    void (*end)(Device *device);
};

void device_play(Device *device, const Pages *pages);

/* Prints every mark as a line of text with coordinates to a hundredth of a point: --dump=pages and goldens. */
void device_text(const Pages *pages, Buf *out);

#endif
