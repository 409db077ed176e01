/** The one sentence about where the data is, as a value. The text is the screens' business. */
import { derived, type Readable, writable } from "svelte/store";
import { noMorePhotos, notSaved } from "../db/house";
import { counts } from "../db/outbox";

/** How the last round with the server went. `trouble`: it answered, but could not do its work. */
export interface Line {
  state: "idle" | "sending" | "reached" | "nosignal" | "signin" | "trouble";
  at?: string; // when the last whole round ended
}
export interface Status {
  kind: "allsent" | "waiting" | "sending" | "nosignal" | "signin" | "needsyou" | "notsaved" | "full";
  n: number;
  waiting: number; // changes and photos only on this phone, whatever the kind
  at?: string;
}

export const line = writable<Line>({ state: "idle" });

/** Tell the other tabs how the line is: only one of them talks to the server. */
export function shareLine(): () => void {
  if (typeof BroadcastChannel === "undefined") return () => {};
  const channel = new BroadcastChannel("knotbed-line");
  let heard: Line | null = null;
  channel.onmessage = ({ data }: MessageEvent<Line>) => {
    heard = data;
    line.set(data);
  };
  const stop = line.subscribe((now) => now !== heard && now.state !== "idle" && channel.postMessage(now));
  return () => {
    stop();
    channel.close();
  };
}

export const status: Readable<Status> = derived(
  [line, counts, notSaved, noMorePhotos],
  ([$line, $counts, $notSaved, $full]) => {
    const waiting = ($counts?.waiting ?? 0) + ($counts?.photos ?? 0);
    const needs = ($counts?.parked ?? 0) + ($counts?.toSettle ?? 0);
    const say = (kind: Status["kind"], n: number): Status => ({ kind, n, waiting, ...($line.at ? { at: $line.at } : {}) });
    if ($notSaved) return say("notsaved", 1);
    if ($full) return say("full", waiting);
    if (needs > 0) return say("needsyou", needs);
    if ($line.state === "signin") return say("signin", waiting);
    if ($line.state === "nosignal") return say("nosignal", waiting);
    if (waiting > 0) return say($line.state === "sending" ? "sending" : "waiting", waiting);
    return say($line.at ? "allsent" : "waiting", 0);
  },
  { kind: "waiting", n: 0, waiting: 0 },
);
