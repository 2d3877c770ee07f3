// The laptop's clock, worked out here, and what a piece's clock shows by it.
// Times are milliseconds; `laptop` ones are of the laptop's raw clock.

const KEPT = 12; // round trips

// How far the laptop's clock is before this one, by one round trip: RFC 5905, 8, where the server
// answers at the moment at which it hears (T2 = T3).
export function offsetOf({ sent, at, back }) {
  return at - (sent + back) / 2;
}

// The clock by the quickest of the latest round trips, as in RFC 5905, 10: the less time one took,
// the less wrong it can be.
export class LaptopClock {
  constructor(here = () => performance.now()) {
    this.here = here;
    this.trips = [];
  }

  get known() {
    return this.trips.length > 0;
  }

  heard(trip) {
    this.trips.push(trip);
    if (this.trips.length > KEPT) this.trips.shift();
  }

  // By these alone from now on: those of before were of clocks that may have parted since.
  anew(trips) {
    this.trips = trips;
  }

  get best() {
    return this.trips.reduce((one, other) => (taken(other) < taken(one) ? other : one));
  }

  now() {
    return this.here() + offsetOf(this.best);
  }
}

function taken(trip) {
  return trip.back - trip.sent;
}

// Milliseconds of a piece that have gone, up to its end; negative while it is counted in.
export function elapsedAt(clock, laptop) {
  const gone = clock.zero === null ? clock.at : (laptop - clock.zero / 1000) * clock.speed;
  return Math.min(Math.max(gone, clock.spans[0][1]), clock.end);
}

// What stands on the clock then: the same as `Timeline.at` of the laptop's.
export function readingAt(clock, elapsed) {
  const spans = clock.spans;
  let span = spans[0];
  for (const one of spans) if (one[1] <= elapsed) span = one;
  const [kind, , end] = span;
  const total = spans[spans.length - 1][2];
  const down = kind === "count-in" || !clock.up;
  return {
    kind,
    shown: down ? Math.ceil((end - elapsed) / 1000) : Math.floor(elapsed / 1000),
    left: Math.ceil((total - Math.max(elapsed, 0)) / 1000),
    over: elapsed >= clock.end,
  };
}

// Whole seconds as a clock shows them: 59:59, then 1:00:00.
export function showTime(seconds) {
  const two = (number) => String(number).padStart(2, "0");
  const minutes = Math.floor(seconds / 60);
  if (minutes < 60) return `${minutes}:${two(seconds % 60)}`;
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(seconds % 60)}`;
}

// The digits of a reading.
export function digitsOf(reading) {
  return reading.kind === "count-in" ? String(reading.shown) : showTime(reading.shown);
}
