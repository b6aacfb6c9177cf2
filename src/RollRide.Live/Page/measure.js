// Counts and times for a benchmark, read from window.rollride: from a move of the hand to the painted answer.

const kept = 20000;

export class Measure {
  counts = { moves: 0, drawn: 0 };
  #times = new Float64Array(kept);
  #next = 0;

  /** Times in milliseconds, the oldest first; at most the last 20,000. */
  get times() {
    const all = Array.from(this.#times.subarray(0, Math.min(this.#next, kept)));
    return this.#next > kept ? [...all.slice(this.#next % kept), ...all.slice(0, this.#next % kept)] : all;
  }

  moved() { this.counts.moves++; }

  /** Called from within a frame whose drawing answers the move made at a time: the paint follows at once. */
  drawn(since) {
    this.counts.drawn++;
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      this.#times[this.#next++ % kept] = performance.now() - since;
      port1.close();
    };
    port2.postMessage(null);
  }
}
