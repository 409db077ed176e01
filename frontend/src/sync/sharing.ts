/** Links to a garden and the phones that opened them; the phones of one's own account. All of it needs the server. */
import { getJson, postJson, unsafe } from "./api";
import type { MadeShare, OwnDevice, Share, WantedShare } from "./wire";

export type { MadeShare, OwnDevice, Share } from "./wire";

export function fetchShares(garden: string): Promise<Share[]> {
  return getJson<Share[]>(`/gardens/${garden}/shares`);
}

/** The address in the answer is told this once. */
export function makeShare(garden: string, wanted: WantedShare): Promise<MadeShare> {
  return postJson<MadeShare>(`/gardens/${garden}/shares`, wanted);
}

/** `refuseLater`: what its people entered before and send afterwards is turned away; else it waits for the grower's word. */
export async function endShare(garden: string, share: string, refuseLater: boolean): Promise<void> {
  await unsafe("DELETE", `/gardens/${garden}/shares/${share}?refuse_later=${refuseLater ? 1 : 0}`);
}

export async function endHelper(garden: string, helper: string, refuseLater: boolean): Promise<void> {
  await unsafe("DELETE", `/gardens/${garden}/helpers/${helper}?refuse_later=${refuseLater ? 1 : 0}`);
}

export function fetchDevices(): Promise<OwnDevice[]> {
  return getJson<OwnDevice[]>("/devices");
}

export async function endDevice(device: string): Promise<void> {
  await unsafe("DELETE", `/devices/${device}`);
}
