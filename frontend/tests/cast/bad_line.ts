/** A line that loses, doubles and delays, and a phone that dies while it stores. Counts what it did. */
import { appendFileSync } from "node:fs";
import { vi } from "vitest";

export const LINE_FAULTS = ["request lost", "answer lost", "doubled", "late", "phone died before storing", "phone died while storing"] as const;
export type LineFault = (typeof LINE_FAULTS)[number];
export type Counts = Record<string, number>;

/** What a run was made of: on the screen, and for the long runs in their file. */
export function tell(part: string, counts: Counts): void {
  const line = JSON.stringify({ part, counts });
  console.log(line);
  const file = process.env["FAULT_TOLD"];
  if (file) appendFileSync(file, `${line}\n`);
}

/** The phone was switched off: whatever it was doing never ends. */
const never = () => new Promise<never>(() => undefined);
const dead = new WeakSet<object>();

export class BadLine {
  private late: (() => Promise<unknown>)[] = [];
  private plan: { at: number; fault: LineFault } | null = null;
  private seen = 0;
  private die: (() => void) | null = null;

  constructor(
    private good: typeof fetch,
    readonly counts: Counts,
  ) {}

  /** Work over this line, with one fault at the nth request of it. Answers whether the phone lived. */
  async work(act: () => Promise<unknown>, plan: { at: number; fault: LineFault } | null): Promise<boolean> {
    this.plan = plan;
    this.seen = 0;
    const died = new Promise<boolean>((resolve) => {
      this.die = () => resolve(false);
    });
    vi.stubGlobal("fetch", this.fetch);
    const lived = await Promise.race([act().then(() => true, () => true), died]);
    this.plan = null;
    storing.left = Infinity;
    return lived;
  }

  /** What was taken for lost arrives after all, in whatever order. */
  async deliver(pick: (n: number) => number): Promise<void> {
    if (this.late.length > 0) await this.late.splice(pick(this.late.length), 1)[0]!();
  }

  private fetch = async (input: RequestInfo | URL, init?: RequestInit): Promise<Response> => {
    const fault = this.plan?.at === (this.seen += 1) ? this.plan.fault : null;
    if (fault) this.counts[fault] = (this.counts[fault] ?? 0) + 1;
    if (String(input).endsWith("/push")) this.counts["pushes"] = (this.counts["pushes"] ?? 0) + 1;
    const send = () => this.good(input, init);
    if (fault === "request lost") throw new TypeError("the request is lost");
    if (fault === "late") {
      this.late.push(send);
      throw new TypeError("nobody answers in time");
    }
    if (fault === "doubled") await send();
    const answer = await send();
    if (fault === "answer lost") throw new TypeError("the answer is lost");
    if (fault === "phone died before storing") return this.dieNow();
    if (fault === "phone died while storing") dieAfterNextStore(this.die!);
    return answer;
  };

  private dieNow(): Promise<never> {
    this.die!();
    return never();
  }
}

const storing = { left: Infinity, die: () => {} };

/** One more transaction of writing goes through; at the second the phone is gone. What belongs together must be in one. */
function dieAfterNextStore(die: () => void): void {
  Object.assign(storing, { left: 1, die });
}

/** Put between the phones and their disks once. A dead phone's handle stays dead; a new tab opens a new one. */
export function watchStoring(): void {
  const plain = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (this: IDBDatabase, ...[stores, mode, options]: Parameters<typeof plain>) {
    if (mode === "readwrite" && (storing.left -= 1) < 0) {
      dead.add(this);
      storing.left = Infinity;
      storing.die();
    }
    if (dead.has(this)) throw new DOMException("the phone is switched off", "InvalidStateError");
    return plain.call(this, stores, mode, options);
  };
}
