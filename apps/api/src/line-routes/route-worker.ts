import { answerInThread } from '../jobs/thread.js';
import { type RouteTask, runRouteTask } from './route-task.js';

// The thread in which routes are searched.
answerInThread<RouteTask>((task, work) => runRouteTask(task, work));
