/** A line on which nothing moves any more: no answer and no error, until the phone's own limit is reached. */
import { vi } from "vitest";

export class DeadLine {
  /** Every limit that was set [ms]. */
  limits: number[] = [];
  n_died = 0;
  dies: (path: string) => boolean = () => false;
  /** The answer begins and never ends. */
  halves: (path: string) => boolean = () => false;
  private open: AbortController[] = [];

  constructor(private good: typeof fetch) {
    vi.spyOn(AbortSignal, "timeout").mockImplementation((ms) => {
      const limit = new AbortController();
      this.limits.push(ms);
      this.open.push(limit);
      return limit.signal;
    });
  }

  fetch = async (input: RequestInfo | URL, init: RequestInit = {}): Promise<Response> => {
    const [path, { signal }] = [String(input), init];
    if (this.dies(path)) {
      this.n_died += 1;
      return new Promise((_resolve, reject) => signal?.addEventListener("abort", () => reject(signal.reason)));
    }
    if (!this.halves(path)) return this.good(input, init);
    this.n_died += 1;
    const body = new ReadableStream({
      start: (stream) => signal?.addEventListener("abort", () => stream.error(signal.reason)),
    });
    return new Response(body);
  };

  died(): Promise<unknown> {
    return vi.waitUntil(() => this.n_died > 0, { timeout: 5_000, interval: 5 });
  }

  timeOut(): void {
    for (const limit of this.open.splice(0)) limit.abort(new DOMException("too long", "TimeoutError"));
  }
}
