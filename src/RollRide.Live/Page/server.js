// Requests to the server that brought this page.

/** The server refuses a request, in its own words. */
export class Refusal extends Error {
  constructor(status, message) {
    super(message);
    this.status = status;
  }
}

/** Reads what the page needs at first. */
export const start = () => insist(() => line.isOpen ? line.ask('start', {}) : ask('start'));

/** Saves a state as a scenario; tells what was written, or why nothing was. */
export const save = request => insist(() => post('save', request));

const post = (address, request) => line.isOpen
  ? line.ask(address, request)
  : ask(address, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(request) });

// Throws a Refusal, or the browser's own TypeError where no server answers.

async function ask(address, options) {
  const response = await fetch(address, { cache: 'no-store', ...options });
  const answer = await response.json().catch(() => null);
  if (!response.ok) throw new Refusal(response.status, answer?.error ?? response.statusText);
  return answer;
}

const busyWait_ms = 50;
const lostWait_ms = 1000;

/** A line to the server that stays open: it takes a fraction of a request's time. Where there is none, as behind a proxy that lets none through, requests do the same. */
class Line {
  #socket = null;
  #waiting = new Map();
  #last = 0;

  constructor() { this.#open(); }

  get isOpen() { return this.#socket !== null; }

  ask(address, request) {
    const number = ++this.#last;
    this.#socket.send(JSON.stringify({ number, ask: address, request }));
    return new Promise((take, refuse) => this.#waiting.set(number, { take, refuse }));
  }

  #open() {
    const address = new URL('line', location.href);
    address.protocol = 'ws:';
    const socket = new WebSocket(address);
    socket.addEventListener('open', () => { this.#socket = socket; });
    socket.addEventListener('message', ({ data }) => this.#receive(JSON.parse(data)));
    socket.addEventListener('close', () => this.#close());
  }

  #receive({ number, status, answer, error }) {
    const asked = this.#waiting.get(number);
    this.#waiting.delete(number);
    if (status === 200) asked?.take(answer);
    else asked?.refuse(new Refusal(status, error));
  }

  #close() {
    this.#socket = null;
    for (const { refuse } of this.#waiting.values()) refuse(new TypeError('The server has closed the line.'));
    this.#waiting.clear();
    setTimeout(() => this.#open(), lostWait_ms);
  }
}

const line = new Line();
const isBusy = error => error.status === 429 || error.status === 503;
const wait = time_ms => new Promise(resolve => setTimeout(resolve, time_ms));

/** Sends again while the server has too much to do. */
async function insist(send) {
  for (;;) {
    try {
      return await send();
    } catch (error) {
      if (!isBusy(error)) throw error;
      await wait(busyWait_ms);
    }
  }
}

/** One kind of request: a single one under way, of those that wait only the newest, nothing queued. */
export class Latest {
  #address;
  #receive;
  #lost;
  #pause_ms;
  #next = null;
  #isBusy = false;
  sent = 0;
  dropped = 0;

  /**
   * @param {string} address
   * @param {(answer: any, request: any) => void} receive
   * @param {(error: Error) => void} lost told when no answer comes; the newest request is sent again
   * @param {number} pause_ms from an answer to the next request
   */
  constructor(address, receive, lost, pause_ms = 0) {
    this.#address = address;
    this.#receive = receive;
    this.#lost = lost;
    this.#pause_ms = pause_ms;
  }

  get isIdle() { return !this.#isBusy; }

  /** @param {() => object} request made when it is sent, so that it holds what is newest then */
  send(request) {
    if (this.#next) this.dropped++;
    this.#next = request;
    if (!this.#isBusy) this.#work();
  }

  async #work() {
    this.#isBusy = true;
    while (this.#next) {
      const make = this.#next;
      this.#next = null;
      const request = make();
      this.sent++;
      let answer;
      try {
        answer = await post(this.#address, request);
      } catch (error) {
        if (!isBusy(error)) this.#lost(error);
        if (error instanceof Refusal && !isBusy(error)) continue;
        this.#next ??= make;
        await wait(isBusy(error) ? busyWait_ms : lostWait_ms);
        continue;
      }
      try {
        this.#receive(answer, request);
      } catch (error) {
        reportError(error); // a fault of this page, not of the server
      }
      if (this.#pause_ms > 0) await wait(this.#pause_ms);
    }
    this.#isBusy = false;
  }
}
