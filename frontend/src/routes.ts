// Which screen stands at which address. A screen is screens/<Name>/<Page>.svelte; it gets the `:parts` of its
// address and `query` as props. `bare` screens have no bottom navigation; `open` ones need nobody signed in.
import type { Component } from "svelte";

export interface Route {
  at: string;
  page: string;
  tab?: "beds" | "samples" | "print" | "phone";
  bare?: boolean;
  open?: boolean;
  fixed?: Record<string, string>;
}

export const routes: Route[] = [
  { at: "/", page: "Beds/Beds", tab: "beds" },
  { at: "/garden/new", page: "GardenForm/GardenForm", tab: "beds", fixed: { id: "new" } },
  { at: "/garden", page: "GardenForm/GardenForm", tab: "beds" },
  { at: "/beds/new", page: "BedForm/BedForm", tab: "beds", fixed: { id: "new" } },
  { at: "/beds/:id", page: "Bed/Bed", tab: "beds" },
  { at: "/beds/:id/edit", page: "BedForm/BedForm", tab: "beds" },
  { at: "/beds/:bed/plantings/new", page: "PlantingForm/PlantingForm", tab: "beds", fixed: { id: "new" } },
  { at: "/plantings/:id", page: "PlantingForm/PlantingForm", tab: "beds" },
  { at: "/checks/:id", page: "Check/Check", bare: true },
  { at: "/samples", page: "Samples/Samples", tab: "samples" },
  { at: "/samples/new", page: "SampleForm/SampleForm", tab: "samples", fixed: { id: "new" } },
  { at: "/samples/:id", page: "SampleForm/SampleForm", tab: "samples" },
  { at: "/labs/new", page: "LabForm/LabForm", tab: "samples", fixed: { id: "new" } },
  { at: "/labs/:id", page: "LabForm/LabForm", tab: "samples" },
  { at: "/print", page: "Print/Print", tab: "print" },
  { at: "/phone", page: "Phone/Phone", tab: "phone" },
  { at: "/needs-you", page: "NeedsYou/NeedsYou", tab: "phone" },
  { at: "/sign-in", page: "SignIn/SignIn", open: true },
  { at: "/pair", page: "Pair/Pair", open: true },
];

type Loader = () => Promise<{ default: Component<Record<string, unknown>> }>;

const files = import.meta.glob<{ default: Component<Record<string, unknown>> }>("./screens/*/*.svelte");

export function loader(route: Route): Loader | undefined {
  return files[`./screens/${route.page}.svelte`];
}
