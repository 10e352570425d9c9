// The program's part for stories and tests. Each answer was made by its own command,
// `onestrand camera … --json`, by `stories/make_answers.sh`.
import type { Refused } from '$lib/api/server';
import type { CalculatorName } from './calculators';
import type { CameraAnswer, CameraDesk, Query } from './camera_desk';
import answers from './stories/answers.json';

const LENGTH = {
  frames: 216,
  feet: 3,
  rest: 0,
  clock: '0:12.0',
  metres: '0.91',
  assumptions: ['72 frames a foot; a frame every 4.234 mm on new film'],
};

export class PretendCamera implements CameraDesk {
  readonly asked: { name: CalculatorName; query: Query }[] = [];
  refuses: Refused | null = null;

  answer(name: CalculatorName, query: Query): Promise<CameraAnswer> {
    this.asked.push({ name, query });
    if (this.refuses) return Promise.reject(this.refuses);
    return Promise.resolve(answerOf(name));
  }
}

function answerOf(name: CalculatorName): CameraAnswer {
  switch (name) {
    case 'length':
      return { name, found: LENGTH };
    case 'field':
      return { name, found: answers.field };
    case 'framing':
      return { name, found: answers.framing };
    case 'depth':
      return { name, found: answers.depth };
    case 'closeup':
      return { name, found: answers.closeup };
    case 'exposure':
      return { name, found: answers.exposure };
    case 'ev':
      return { name, found: answers.ev };
    case 'filter':
      return { name, found: answers.filter };
    case 'sun':
      return { name, found: answers.sun };
    case 'pan':
      return { name, found: answers.pan };
    case 'flash':
      return { name, found: answers.flash };
    case 'speed':
      return { name, found: answers.speed };
    case 'wedge':
      return { name, found: answers.wedge };
  }
}
