// Runs beside the sound card: hands on what the microphone hears, about ten times a second,
// with the moment of its first sample. A file of its own, since the page allows no script
// that stands inline; plain JavaScript, since it is loaded as it is.
/* global AudioWorkletProcessor, registerProcessor, currentFrame, sampleRate */
class Catcher extends AudioWorkletProcessor {
  constructor(options) {
    super();
    this.channels = options.processorOptions.channels;
    this.room = Math.ceil(sampleRate / 10 / 128) * 128;
    this.begin();
    this.goes = true;
    this.port.onmessage = () => {
      this.goes = false;
      this.handOn();
      this.port.postMessage(null);
    };
  }

  begin() {
    this.samples = new Float32Array(this.room * this.channels);
    this.filled = 0;
    this.at = currentFrame;
  }

  handOn() {
    if (this.filled > 0) {
      const samples = this.samples.subarray(0, this.filled * this.channels);
      this.port.postMessage({ at: this.at, samples: samples.slice() });
    }
  }

  process(inputs) {
    if (!this.goes) return false;
    const [input] = inputs;
    if (this.filled === 0) this.at = currentFrame;
    // A microphone that gives nothing is silence in its place: time goes on.
    for (let nth = 0; nth < 128; nth += 1) {
      for (let channel = 0; channel < this.channels; channel += 1) {
        const heard = input && (input[channel] ?? input[0]);
        this.samples[(this.filled + nth) * this.channels + channel] = heard ? heard[nth] : 0;
      }
    }
    this.filled += 128;
    if (this.filled >= this.room) {
      this.handOn();
      this.begin();
    }
    return true;
  }
}

registerProcessor('catcher', Catcher);
