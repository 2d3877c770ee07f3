// The link to the laptop: its events, its clock, and whether it stands.

const SILENT = 1500; // ms without a beat: the link is gone
const ANEW = 2500; // ms: then it is opened anew, and again
const AGAIN = 1000; // every so many
const QUICK = 6; // round trips at once, to know the clock
const EVERY = 5000; // ms between two of them later
const JUMPED = 300; // ms that the system's clocks may part: the machine slept

export class Link {
  // `came` is handed parts of what is shown, `stands` whether the link does when that changes.
  constructor(clock, { came, stands }) {
    this.clock = clock;
    this.came = came;
    this.stands = stands;
    this.up = null;
    this.heard = this.opened = performance.now();
    this.asked = 0;
    this.asking = false;
    this.parted = Date.now() - performance.now();
    this.open();
    setInterval(() => this.look(), 250);
    document.addEventListener("visibilitychange", () => {
      if (!document.hidden) this.setClock();
    });
    this.setClock();
  }

  open() {
    if (this.source) this.source.close();
    this.opened = performance.now();
    const source = new EventSource("events");
    this.source = source;
    source.addEventListener("parts", (event) => {
      this.beat();
      this.came(JSON.parse(event.data));
    });
    source.addEventListener("beat", () => this.beat());
    source.addEventListener("over", () => leave());
    source.addEventListener("error", () => {
      if (source === this.source) source.close();
    });
  }

  beat() {
    this.heard = performance.now();
    if (this.up !== true) {
      const again = this.up === false;
      this.up = true;
      this.stands(true);
      if (again) this.setClock();
    }
  }

  look() {
    const now = performance.now();
    if (now - this.heard > SILENT && this.up !== false) {
      this.up = false;
      this.stands(false);
    }
    const closed = this.source.readyState === EventSource.CLOSED;
    if ((closed || now - this.heard > ANEW) && now - this.opened > AGAIN) {
      this.open();
      if (closed) this.ask(); // it may be that the address holds no longer
    }
    const parted = Date.now() - now;
    if (Math.abs(parted - this.parted) > JUMPED) {
      this.parted = parted;
      this.setClock();
    } else if (now - this.asked > EVERY) {
      this.ask();
    }
  }

  // Several round trips, one after the other, and then by them alone: until they are all back the
  // clock stays, since one that was under way while the link was gone would set it wrong.
  async setClock() {
    if (this.asking) return;
    this.asking = true;
    try {
      const trips = [];
      for (let trip = 0; trip < QUICK; trip += 1) {
        const made = await this.trip();
        if (!made) return;
        if (!this.clock.known) this.clock.heard(made);
        trips.push(made);
      }
      this.clock.anew(trips);
    } finally {
      this.asking = false;
    }
  }

  async ask() {
    const made = await this.trip();
    if (made) this.clock.heard(made);
  }

  // Null where there is no answer.
  async trip() {
    this.asked = performance.now();
    try {
      const sent = performance.now();
      const answer = await fetch("time", { cache: "no-store", credentials: "omit" });
      const back = performance.now();
      if (answer.status === 404) leave();
      if (!answer.ok) return null;
      const { at } = await answer.json();
      return { sent, back, at: at / 1000 };
    } catch {
      return null;
    }
  }
}

// This address was for a class that is over: the bare page asks to be let in again.
function leave() {
  location.replace("/");
}
