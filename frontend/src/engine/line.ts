/** One worker at a time: started when the first question comes, ended when none has come for a while. */
import { archiveBytes, INDEX } from "../sync/enginefiles.ts";
import type { Asked, Told, Why } from "./protocol.ts";
import { state } from "./state.ts";

export const PATIENCE_MS = { start: 90_000, answer: 120_000, idle: 300_000 };

/** The engine is not there for this question; `state` says what to tell the person. */
export class NoEngine extends Error {
  override name = "NoEngine";
}
type Answer = Extract<Told, { kind: "answer" }>;
interface Caller {
  done: (told: Answer) => void;
  failed: (error: Error) => void;
  timer: ReturnType<typeof setTimeout>;
}

let worker: Worker | null = null;
let started: Promise<void> | null = null;
let idle: ReturnType<typeof setTimeout> | undefined;
let lastId = 0;
const callers = new Map<number, Caller>();

export async function call(name: string, args: unknown): Promise<Answer> {
  await (started ??= start());
  clearTimeout(idle);
  return new Promise((done, failed) => {
    const id = ++lastId;
    const timer = setTimeout(() => end({ kind: "ready_to_start" }), PATIENCE_MS.answer);
    callers.set(id, { done, failed, timer });
    say({ id, name, args: JSON.stringify(args) });
  });
}

async function start(): Promise<void> {
  state.set({ kind: "starting" });
  const archive = await archiveBytes();
  if (!archive) {
    end({ kind: "absent" });
    throw new NoEngine("cleared away");
  }
  await new Promise<void>((done, failed) => {
    const give = (why: Why) => {
      end({ kind: "cannot", why });
      failed(new NoEngine(why));
    };
    const timer = setTimeout(() => give("slow"), PATIENCE_MS.start);
    worker = new Worker(new URL("./worker.ts", import.meta.url), { type: "module" });
    worker.onerror = () => {
      clearTimeout(timer);
      give("broken");
    };
    worker.onmessage = ({ data }: MessageEvent<Told>) => {
      if (data.kind === "answer" || data.kind === "failed") return hear(data);
      clearTimeout(timer);
      if (data.kind === "cannot") return give(data.why);
      state.set({ kind: "running" });
      done();
    };
    say({ index: new URL(INDEX, location.href).href, archive }, [archive]);
  });
}

function hear(told: Extract<Told, { id: number }>): void {
  const caller = callers.get(told.id);
  callers.delete(told.id);
  clearTimeout(caller?.timer);
  if (told.kind === "answer") caller?.done(told);
  else caller?.failed(new NoEngine(told.detail));
  if (callers.size === 0) idle = setTimeout(() => end({ kind: "ready_to_start" }), PATIENCE_MS.idle);
}

/** Gives its memory back. Whoever still waits is told. */
function end(now: Parameters<typeof state.set>[0]): void {
  worker?.terminate();
  worker = started = null;
  clearTimeout(idle);
  for (const { failed, timer } of callers.values()) {
    clearTimeout(timer);
    failed(new NoEngine(now.kind));
  }
  callers.clear();
  state.set(now);
}

function say(asked: Asked, owned: Transferable[] = []): void {
  worker?.postMessage(asked, owned);
}
