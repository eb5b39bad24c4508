/** The inside of a worker of the page that runs jobs. */
import { serveJobs } from '../../src/work/serve-jobs.ts';
import { port } from './inside.ts';

serveJobs(port);
