/* Work that goes on beside its caller. What a task touches belongs to it from task_start to task_join. */
#ifndef TB_BASE_TASK_H
#define TB_BASE_TASK_H

typedef struct Task Task;
typedef void TaskRun(void *data);

/* Starts `run` on a thread of its own; where there is none to be had it has been done when this returns. */
Task *task_start(TaskRun *run, void *data) __attribute__((warn_unused_result));

/* Waits for the end of the work and frees the task; NULL does nothing. */
void task_join(Task *task);

#endif
