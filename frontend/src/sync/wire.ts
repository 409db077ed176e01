/** What travels, by the names of the server's own description: `npm run types` makes schema.d.ts from openapi.yaml. */
import type { Kind, Moment } from "../db/kinds";
import type { components } from "./schema";

type Schemas = components["schemas"];
export type Blanks = Schemas["Blanks"];
export type Briefed = Schemas["Briefed"];
export type Me = Schemas["Me"];
export type Pairing = Schemas["Pairing"];
export type Problem = Schemas["Problem"];
export type Pulled = Schemas["Pulled"];
export type Push = Schemas["Push"];
export type Pushed = Schemas["Pushed"];
export type Session = Schemas["Session"];
export type Code = Schemas["Code"];
export type Joined = Schemas["Joined"];
export type Share = Schemas["Share"];
export type MadeShare = Schemas["ShareMade"];
export type WantedShare = Schemas["ShareWanted"];
export type OwnDevice = Schemas["Device"];
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
