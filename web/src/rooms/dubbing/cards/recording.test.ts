import { cleanup, render, screen } from '@testing-library/svelte';
import { afterEach, expect, it } from 'vitest';
import type { LoopBack } from '$lib/record/measure_latency';
import type { Microphone } from '$lib/record/recorder.svelte';
import { type KeptPass, Recording, type Recordings } from './recording.svelte';
import RecordingCard from './RecordingCard.svelte';

afterEach(cleanup);
const settle = () => new Promise((done) => setTimeout(done, 0));

class PretendPlace implements Recordings {
  finished: { recording: string; offset: number }[] = [];
  lies = [
    {
      recording: 'recording-4',
      about: { name: 'voice, pass 9', rate: 48_000, channels: 1, cut: 'v1', at: 7 },
      samples: 96_000,
      offset: 50_000,
      runs: false,
    },
    {
      recording: 'recording-6',
      about: { name: 'in another window', rate: 48_000, channels: 1, cut: 'v1', at: 7 },
      samples: 48_000,
      offset: null,
      runs: true,
    },
  ];
  begin = () => Promise.resolve('recording-5');
  keep = (_recording: string, at: number, samples: Float32Array) =>
    Promise.resolve(at + samples.length);
  mayHelp = () => false;
  finish = (pass: { recording: string; offset: number }) => {
    this.finished.push({ recording: pass.recording, offset: pass.offset });
    this.lies = this.lies.filter((one) => one.recording !== pass.recording);
    return Promise.resolve({
      id: 70 + this.finished.length,
      samples: 96_000,
      from: pass.offset,
      peak: -30,
    });
  };
  half = () => Promise.resolve(this.lies);
  throwAway = (recording: string) => {
    this.lies = this.lies.filter((one) => one.recording !== recording);
    return Promise.resolve(this.lies);
  };
}

class PretendMicrophone implements Microphone, LoopBack {
  readonly rate = 48_000;
  readonly channels = 1 as const;
  heard: (at: number, samples: Float32Array) => void = () => {};
  listen(heard: (at: number, samples: Float32Array) => void) {
    this.heard = heard;
    return Promise.resolve();
  }
  stop = () => Promise.resolve();
  onGone() {}
  readonly lateAsSaid = 0;
  play = () => 0;
}

function room(open: () => Promise<Microphone & LoopBack>, names: readonly string[] = []) {
  const place = new PretendPlace();
  const did: string[] = [];
  const recording = new Recording(
    place,
    {
      at: () => 120,
      mayHear: () => true,
      run: () => {
        did.push('run');
        return Promise.resolve(0);
      },
      stand: () => did.push('stand'),
      back: (at) => did.push(`back to ${String(at)}`),
      came: () => {
        did.push('came');
        return Promise.resolve();
      },
      names: () => names,
    },
    open,
  );
  return { place, did, recording };
}

it('offers what was left half, and keeps it as a sound or throws it away', async () => {
  const { place, did, recording } = room(() => Promise.resolve(new PretendMicrophone()));
  render(RecordingCard, { recording });
  await settle();
  expect(screen.getByText(/left half: voice, pass 9/)).toBeTruthy();
  screen.getByRole('button', { name: 'Keep it as a sound' }).click();
  await settle();
  await settle();
  expect(place.finished).toEqual([{ recording: 'recording-4', offset: 50_000 }]);
  expect(did).toEqual(['came']);
  expect(screen.queryByText(/left half/)).toBeNull();
});

it('makes each pass a sound at once, and lays it where it was recorded', async () => {
  const microphone = new PretendMicrophone();
  const { place, did, recording } = room(() => Promise.resolve(microphone));
  const laid: KeptPass[] = [];
  render(RecordingCard, { recording, onlay: (pass: KeptPass) => laid.push(pass) });
  screen.getByRole('button', { name: 'Record voice, pass 1' }).click();
  await settle();
  microphone.heard(0, new Float32Array(96_000));
  await settle();
  // Stopped while it counts in: what was recorded is kept all the same.
  screen.getByRole('button', { name: 'Stop' }).click();
  await settle();
  await settle();
  expect(place.finished.at(-1)?.recording).toBe('recording-5');
  expect(did).toEqual(expect.arrayContaining(['stand', 'back to 120']));
  // What lies half is called pass 9.
  expect(recording.nextName).toBe('voice, pass 10');
  screen.getByRole('button', { name: 'Lay it where it was recorded' }).click();
  expect(laid[0]).toMatchObject({ name: 'voice, pass 1', at: 120, seconds: 2 });
});

it('says what to do when the microphone is refused', async () => {
  const { recording } = room(() => Promise.reject(new DOMException('', 'NotAllowedError')));
  render(RecordingCard, { recording });
  screen.getByRole('button', { name: 'Record voice, pass 1' }).click();
  await settle();
  await settle();
  expect(screen.getByText(/allow the microphone, and start again/)).toBeTruthy();
});

it('counts on where the sounds of the film are, and what was left half', async () => {
  const names = ['river', 'voice, pass 1', 'voice, pass 12', 'voice, passing', 'steps, pass 3'];
  const { recording } = room(() => Promise.resolve(new PretendMicrophone()), names);
  expect(recording.nextName).toBe('voice, pass 13');
  recording.name = 'steps';
  expect(recording.nextName).toBe('steps, pass 4');
  const { recording: other } = room(() => Promise.resolve(new PretendMicrophone()));
  await other.look();
  expect(other.nextName).toBe('voice, pass 10');
});

it('lets another pass of the same place be taken instead of the one that is laid', async () => {
  const microphone = new PretendMicrophone();
  const { recording } = room(() => Promise.resolve(microphone));
  let laid: number | null = null;
  const on = {
    recording,
    onlay: (pass: KeptPass) => (laid = pass.id),
    laid: (pass: KeptPass) =>
      laid === null
        ? ('none' as const)
        : laid === pass.id
          ? ('this' as const)
          : ('another' as const),
  };
  const { rerender } = render(RecordingCard, on);
  for (let nth = 0; nth < 2; nth += 1) {
    void recording.startOrStop();
    await settle();
    microphone.heard(0, new Float32Array(96_000));
    await settle();
    await recording.stop();
    await settle();
  }
  expect(recording.passes.map(({ name, id }) => [name, id])).toEqual([
    ['voice, pass 1', 71],
    ['voice, pass 10', 72],
  ]);
  screen.getAllByRole('button', { name: 'Lay it where it was recorded' })[1]?.click();
  await rerender({ ...on });
  expect(screen.getByRole('button', { name: 'Laid' })).toHaveProperty('disabled', true);
  screen.getByRole('button', { name: 'Take this pass instead' }).click();
  expect(laid).toBe(71);
});
