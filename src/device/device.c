#include "device/device.h"

void device_play(Device *device, const Pages *pages) {
    device->begin(device, pages);
    for (size_t i = 0; i < pages->count; i++) {
        const Page *page = &pages->pages[i];
        device->page(device, page);
        for (size_t k = 0; k < page->count; k++) device->mark(device, &page->marks[k]);
        device->page_end(device);
    }
    device->end(device);
}
