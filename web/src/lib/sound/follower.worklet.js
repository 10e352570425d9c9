// Runs beside the sound card: plays samples at a rate that follows a projector. The rate has a
// bounded slope, sample by sample, so that no step is heard; between samples lies a cubic through
// four of them. A file of its own, since the page allows no script
// that stands inline; plain JavaScript, since it is loaded as it is.
/* global AudioWorkletProcessor, registerProcessor, sampleRate */

/** The rate changes by no more than this in a second: 0.1 %. */
const SLOPE = 0.001;
/** Nothing is played slower or faster than this. */
const SLOWEST = 0.85;
const FASTEST = 1.15;
/** Sound comes in and goes out within so much. Unit: s. */
const FADE = 0.03;
/** So much is kept. Unit: samples of each channel, a power of two. */
const ROOM = 1 << 19;

class Follower extends AudioWorkletProcessor {
  constructor() {
    super();
    this.left = new Float32Array(ROOM);
    this.right = new Float32Array(ROOM);
    /** Which sample lies at each place; what was never laid is silent. */
    this.from = 0;
    this.to = 0;
    this.place = 0;
    this.rate = 1;
    this.slope = 0;
    this.gain = 0;
    this.opens = false;
    this.jump = null;
    this.blocks = 0;
    this.port.onmessage = ({ data }) => this.told(data);
  }

  told(data) {
    if (data.what === 'samples') this.lay(data.at, data.left, data.right);
    else if (data.what === 'slope') this.slope = Math.min(Math.max(data.slope, -SLOPE), SLOPE);
    else if (data.what === 'stop') this.opens = false;
    else if (data.what === 'jump') this.jump = { place: data.place, rate: data.rate };
  }

  /** Samples from `at` on; what does not join what lies there begins anew. */
  lay(at, left, right) {
    if (at !== this.to) this.from = this.to = at;
    for (let nth = 0; nth < left.length; nth += 1) {
      const here = (at + nth) & (ROOM - 1);
      this.left[here] = left[nth];
      this.right[here] = right[nth];
    }
    this.to = at + left.length;
    this.from = Math.max(this.from, this.to - ROOM);
  }

  sample(channel, at) {
    return at >= this.from && at < this.to ? channel[at & (ROOM - 1)] : 0;
  }

  /** The cubic through four samples about a place (Catmull and Rom 1974). */
  between(channel, place) {
    const whole = Math.floor(place);
    const part = place - whole;
    const a = this.sample(channel, whole - 1);
    const b = this.sample(channel, whole);
    const c = this.sample(channel, whole + 1);
    const d = this.sample(channel, whole + 2);
    return (
      b + 0.5 * part * (c - a + part * (2 * a - 5 * b + 4 * c - d + part * (3 * (b - c) + d - a)))
    );
  }

  process(inputs, [output]) {
    const [left, right] = output;
    for (let nth = 0; nth < left.length; nth += 1) {
      const open = this.opens && this.jump === null ? 1 : 0;
      const step = 1 / (FADE * sampleRate);
      this.gain += Math.min(Math.max(open - this.gain, -step), step);
      if (this.jump !== null && this.gain <= 0) {
        // Only in silence is anything set at once.
        ({ place: this.place, rate: this.rate } = this.jump);
        this.slope = 0;
        this.jump = null;
        this.opens = true;
      }
      left[nth] = this.gain * this.between(this.left, this.place);
      if (right) right[nth] = this.gain * this.between(this.right, this.place);
      this.rate = Math.min(Math.max(this.rate + this.slope / sampleRate, SLOWEST), FASTEST);
      this.place += (this.rate * 48000) / sampleRate;
    }
    this.blocks += 1;
    if (this.blocks % 8 === 0) {
      this.port.postMessage({ place: this.place, rate: this.rate, plays: this.opens });
    }
    return true;
  }
}

registerProcessor('follower', Follower);
