// Requests to the server that brought this page.

/** The server refuses a request, in its own words. */
export class Refusal extends Error {
  constructor(status, message) {
    super(message);
    this.status = status;
  }
}

/** Reads what the page needs at first. */
export const start = () => ask('start');

/** Asks for one of the server's answers; throws a Refusal, or the browser's own TypeError where no server answers. */
export const post = (address, request) =>
  ask(address, { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(request) });

async function ask(address, options) {
  const response = await fetch(address, { cache: 'no-store', ...options });
  const answer = await response.json().catch(() => null);
  if (!response.ok) throw new Refusal(response.status, answer?.error ?? response.statusText);
  return answer;
}

const busyWait_ms = 50;
const lostWait_ms = 1000;

/** One kind of request: a single one under way, of those that wait only the newest, nothing queued. */
export class Latest {
  #address;
  #receive;
  #lost;
  #next = null;
  #isBusy = false;
  sent = 0;
  dropped = 0;

  /**
   * @param {string} address
   * @param {(answer: any, request: any) => void} receive
   * @param {(error: Error) => void} lost told when no answer comes; the newest request is sent again
   */
  constructor(address, receive, lost) {
    this.#address = address;
    this.#receive = receive;
    this.#lost = lost;
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
      try {
        this.#receive(await post(this.#address, request), request);
      } catch (error) {
        const isTooBusy = error.status === 429 || error.status === 503;
        if (!isTooBusy) this.#lost(error);
        if (error instanceof Refusal && !isTooBusy) continue;
        this.#next ??= make;
        await new Promise(resolve => setTimeout(resolve, isTooBusy ? busyWait_ms : lostWait_ms));
      }
    }
    this.#isBusy = false;
  }
}
