import { InputError } from '../errors.js';
import { faultsByFile } from './faultsByFile.js';
import { look } from './look.js';
import type { Answer, Ask, Looked } from './messages.js';
import { planner } from './planning.js';

const plan = planner();
const tell = (answer: Answer) => self.postMessage(answer);

/** Asked one after another: what is asked meanwhile waits. */
let before: Promise<void> = Promise.resolve();
self.addEventListener('message', ({ data }: MessageEvent<Ask>) => {
  before = before.then(() => answered(data));
});

async function answered(asked: Ask): Promise<void> {
  try {
    if (asked.ask === 'look') {
      const looked: Looked[] = [];
      for (const file of asked.files)
        looked.push(await look(file, (share) => tell({ answer: 'progress', text: `Reading ${file.name}`, share })));
      tell({ answer: 'looked', looked });
    } else {
      const onProgress = (text: string, share?: number) =>
        tell({ answer: 'progress', text, ...(share === undefined ? {} : { share }) });
      tell({ answer: 'planned', run: asked.run, ...(await plan(asked.wanted, onProgress)) });
    }
  } catch (error) {
    if (error instanceof InputError && asked.ask === 'plan')
      tell({ answer: 'faults', run: asked.run, faults: faultsByFile(error) });
    else tell({ answer: 'failed', text: error instanceof Error ? error.message : String(error) });
  }
}
