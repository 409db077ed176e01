/** What travels, by the names of the server's own description: `npm run types` makes schema.d.ts from openapi.yaml. */
import type { components } from "./schema";

type Schemas = components["schemas"];
export type Arrival = Schemas["Arrival"];
export type Blanks = Schemas["Blanks"];
export type Briefed = Schemas["Briefed"];
export type Change = Schemas["Change"];
export type Changes = Schemas["History"];
export type Code = Schemas["Code"];
export type Joined = Schemas["Joined"];
export type MadeShare = Schemas["ShareMade"];
export type Me = Schemas["Me"];
export type OwnDevice = Schemas["Device"];
export type Pairing = Schemas["Pairing"];
export type Problem = Schemas["Problem"];
export type Pulled = Schemas["Pulled"];
export type Push = Schemas["Push"];
export type Pushed = Schemas["Pushed"];
export type SavedFileBrought = Schemas["SavedFileBrought"];
export type Session = Schemas["Session"];
export type Share = Schemas["Share"];
export type WantedShare = Schemas["ShareWanted"];
