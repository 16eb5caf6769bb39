#include "base/task.h"

#include <pthread.h>
#include <stdbool.h>
#include <stdlib.h>

#include "base/arena.h"

struct Task {
    TaskRun *run;
    void *data;
    pthread_t thread;
    bool has_thread;
};

static void *run_task(void *argument) {
    Task *task = argument;
    task->run(task->data);
    return NULL;
}

Task *task_start(TaskRun *run, void *data) {
    Task *task = mem_alloc(sizeof *task);
    *task = (Task){.run = run, .data = data};
    task->has_thread = pthread_create(&task->thread, NULL, run_task, task) == 0;
    if (!task->has_thread) run(data);
    return task;
}

void task_join(Task *task) {
    if (!task) return;
    if (task->has_thread) pthread_join(task->thread, NULL);
    free(task);
}
