// Which screen stands at which address. Each is loaded when it is first shown (and kept by the service worker);
// it gets the `:parts` of its address, what is `fixed` and `query` as props. `bare` screens have no bottom navigation; `open` ones need nobody signed in.
export interface Route {
  at: string;
  load: () => Promise<{ default: unknown }>;
  tab?: "beds" | "samples" | "print" | "phone";
  bare?: boolean;
  open?: boolean;
  fixed?: Record<string, string>;
}

export const routes: Route[] = [
  { at: "/", load: () => import("./screens/Beds/Beds.svelte"), tab: "beds" },
  { at: "/garden/new", load: () => import("./screens/GardenForm/GardenForm.svelte"), tab: "beds", fixed: { id: "new" } },
  { at: "/garden", load: () => import("./screens/GardenForm/GardenForm.svelte"), tab: "beds" },
  { at: "/beds/new", load: () => import("./screens/BedForm/BedForm.svelte"), tab: "beds", fixed: { id: "new" } },
  { at: "/beds/:id", load: () => import("./screens/Bed/Bed.svelte"), tab: "beds" },
  { at: "/beds/:id/what-we-know", load: () => import("./screens/Bed/WhatWeKnow.svelte"), tab: "beds" },
  { at: "/beds/:id/sample", load: () => import("./screens/SamplePlan/SamplePlan.svelte"), tab: "beds" },
  { at: "/beds/:id/edit", load: () => import("./screens/BedForm/BedForm.svelte"), tab: "beds" },
  { at: "/beds/:bed/plantings/new", load: () => import("./screens/PlantingForm/PlantingForm.svelte"), tab: "beds", fixed: { id: "new" } },
  { at: "/beds/:bed/pots/new", load: () => import("./screens/PotsForm/PotsForm.svelte"), tab: "beds", fixed: { id: "new" } },
  { at: "/pots/:id", load: () => import("./screens/PotsForm/PotsForm.svelte"), tab: "beds" },
  { at: "/plantings/:id", load: () => import("./screens/PlantingForm/PlantingForm.svelte"), tab: "beds" },
  { at: "/checks/:id", load: () => import("./screens/Check/Check.svelte"), bare: true },
  { at: "/samples", load: () => import("./screens/Samples/Samples.svelte"), tab: "samples" },
  { at: "/samples/new", load: () => import("./screens/SampleForm/SampleForm.svelte"), tab: "samples", fixed: { id: "new" } },
  { at: "/samples/:id", load: () => import("./screens/SampleForm/SampleForm.svelte"), tab: "samples" },
  { at: "/samples/:id/take", load: () => import("./screens/Take/Take.svelte"), bare: true },
  { at: "/samples/:sample/report/new", load: () => import("./screens/ReportForm/NewReport.svelte"), tab: "samples" },
  { at: "/reports/:id", load: () => import("./screens/ReportForm/Report.svelte"), tab: "samples" },
  { at: "/labs/new", load: () => import("./screens/LabForm/LabForm.svelte"), tab: "samples", fixed: { id: "new" } },
  { at: "/labs/:id", load: () => import("./screens/LabForm/LabForm.svelte"), tab: "samples" },
  { at: "/labs/:id/form", load: () => import("./screens/OwnForm/OwnForm.svelte"), tab: "samples" },
  { at: "/papers/:id", load: () => import("./screens/Paper/Paper.svelte"), tab: "samples" },
  { at: "/work-out", load: () => import("./screens/WorkOut/WorkOut.svelte"), tab: "beds" },
  { at: "/work-out/:question", load: () => import("./screens/WorkOut/Question.svelte"), tab: "beds" },
  { at: "/print", load: () => import("./screens/Print/Print.svelte"), tab: "print" },
  { at: "/phone", load: () => import("./screens/Phone/Phone.svelte"), tab: "phone" },
  { at: "/needs-you", load: () => import("./screens/NeedsYou/NeedsYou.svelte"), tab: "phone" },
  { at: "/sign-in", load: () => import("./screens/SignIn/SignIn.svelte"), open: true },
  { at: "/pair", load: () => import("./screens/Pair/Pair.svelte"), open: true },
];
