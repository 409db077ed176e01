/** What travels, by the names of the server's own description: `npm run types` makes schema.d.ts from openapi.yaml. */
import type { Kind, Moment } from "../db/kinds";
import type { Standing } from "../db/rights";
import type { components } from "./schema";

type Schemas = components["schemas"];
export type Blanks = Schemas["Blanks"];
export type Briefed = Schemas["Briefed"];
export interface Me {
  account: { id: string; username: string; is_helper: boolean };
  csrf: string;
  device: string | null;
  gardens: (Standing & { head: string | null })[];
}
export type Pairing = Schemas["Pairing"];
export type Problem = Schemas["Problem"];
export type Pulled = Schemas["Pulled"];
export type Push = Schemas["Push"];
export type Pushed = Schemas["Pushed"];
export type Session = Schemas["Session"];
export interface Code {
  code: string;
  expires_at: Moment;
}
export type Joined = Session & { garden: string; role: string; garden_name: string };
export interface ShareHelper {
  id: string;
  name: string;
  device_name: string;
  joined_at: Moment;
  last_seen_at: Moment | null;
  ended_at: Moment | null;
}
export interface WantedShare {
  role: string;
  label: string;
  expires_at: Moment | null;
  max_devices: number;
}
export interface Share extends WantedShare {
  id: string;
  made_at: Moment;
  ended_at: Moment | null;
  refuses_later: boolean;
  helpers: ShareHelper[];
}
export type MadeShare = Share & { url: string };
export interface OwnDevice {
  device: string;
  name: string;
  first_seen_at: Moment;
  last_seen_at: Moment | null;
  is_this: boolean;
}
export interface Change {
  seq: number;
  op: "put" | "patch" | "delete";
  kind: Kind;
  by: string;
  device: string;
  claimed_at: Moment;
  received_at: Moment;
  set: Record<string, unknown> | null;
  prev: Record<string, unknown> | null;
  status: string;
}
export interface Changes {
  entries: Change[];
  more: boolean;
}
