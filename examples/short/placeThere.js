import { parentPort, workerData } from 'node:worker_threads';
import { snap } from 'datumline/snap';

parentPort.postMessage(snap(workerData.route, workerData.recording));
