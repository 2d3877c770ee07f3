// The cues, heard where this page is, once somebody here has turned them on. On the page's clock.

const AHEAD = 2000; // ms before its time at which a cue is scheduled
const LATE = 1000; // ms after which it is left out
const LOOKS = 200; // ms between two looks

export class RoomSound {
  constructor(clock, button) {
    this.clock = clock;
    this.button = button;
    this.context = null;
    this.waves = new Map();
    this.placed = new Map();
    this.looked = 0;
    button.addEventListener("click", () => this.turn());
    this.show(false);
  }

  get on() {
    return this.context !== null && this.context.state === "running";
  }

  async turn() {
    if (this.context === null) {
      this.context = new AudioContext({ latencyHint: "interactive" });
      await this.context.resume();
    } else if (this.context.state === "running") {
      this.cancel();
      await this.context.suspend();
    } else {
      await this.context.resume();
    }
    this.show(this.on);
    this.looked = 0;
  }

  show(on) {
    this.button.setAttribute("aria-pressed", String(on));
    this.button.textContent = on ? "Sound here: on" : "Sound here: off";
  }

  // The clock was started, held, set or is another one: what was scheduled holds no longer.
  follow(piece) {
    const same = this.piece && piece && this.piece.zero === piece.zero && this.piece.speed === piece.speed;
    this.piece = piece || null;
    if (!same) this.cancel();
    else this.drop((at) => !piece.cues.some((cue) => cue[0] === at));
    this.looked = 0;
  }

  cancel() {
    this.drop(() => true);
  }

  drop(test) {
    for (const [at, source] of this.placed) {
      if (test(at)) {
        source.stop();
        this.placed.delete(at);
      }
    }
  }

  look() {
    const now = performance.now();
    if (now - this.looked < LOOKS) return;
    this.looked = now;
    const { piece } = this;
    if (!this.on || !piece || piece.zero === null || !this.clock.known) return;
    const elapsed = unbounded(piece, this.clock.now());
    for (const [at, kind] of piece.cues) {
      const until = (at - elapsed) / piece.speed;
      if (until < AHEAD && until > -LATE && !this.placed.has(at)) this.place(at, kind, piece);
    }
  }

  async place(at, kind, piece) {
    const source = this.context.createBufferSource();
    this.placed.set(at, source);
    source.buffer = await this.wave(kind);
    if (this.placed.get(at) !== source || this.piece !== piece && this.piece.zero !== piece.zero) return;
    source.connect(this.context.destination);
    const until = (at - unbounded(piece, this.clock.now())) / piece.speed / 1000;
    const delay = this.context.outputLatency || 0;
    source.start(Math.max(0, this.context.currentTime + until - delay));
  }

  async wave(kind) {
    if (!this.waves.has(kind)) {
      const load = async () => {
        const answer = await fetch(`/${kind}.wav`);
        return this.context.decodeAudioData(await answer.arrayBuffer());
      };
      this.waves.set(kind, load());
    }
    return this.waves.get(kind);
  }
}

function unbounded(piece, laptop) {
  return (laptop - piece.zero / 1000) * piece.speed;
}
