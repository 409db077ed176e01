// Which screen stands at which address. Each is loaded when it is first shown (and kept by the service worker);
// it gets the `:parts` of its address, what is `fixed` and `query` as props. `bare` screens have no bottom navigation; `open` ones need nobody signed in.
import type { Kind } from "./db/kinds.ts";

export interface Route {
  at: string;
  load: () => Promise<{ default: unknown }>;
  tab?: "beds" | "samples" | "print" | "phone";
  bare?: boolean;
  open?: boolean;
  fixed?: Record<string, string>;
  /** A form: who may neither make nor change records of this kind here is told so instead. */
  makes?: Kind;
}

export const routes: Route[] = [
  { at: "/", load: () => import("./screens/Beds/Beds.svelte"), tab: "beds" },
  { at: "/garden/new", load: () => import("./screens/GardenForm/GardenForm.svelte"), tab: "beds", fixed: { id: "new" } },
  { at: "/garden", load: () => import("./screens/GardenForm/GardenForm.svelte"), tab: "beds", makes: "garden" },
  { at: "/beds/new", load: () => import("./screens/BedForm/BedForm.svelte"), tab: "beds", fixed: { id: "new" }, makes: "bed" },
  { at: "/beds/:id", load: () => import("./screens/Bed/Bed.svelte"), tab: "beds" },
  { at: "/beds/:id/what-we-know", load: () => import("./screens/Bed/WhatWeKnow.svelte"), tab: "beds" },
  { at: "/beds/:id/sample", load: () => import("./screens/SamplePlan/SamplePlan.svelte"), tab: "beds", makes: "soil_sample" },
  { at: "/beds/:id/edit", load: () => import("./screens/BedForm/BedForm.svelte"), tab: "beds", makes: "bed" },
  { at: "/beds/:bed/plantings/new", load: () => import("./screens/PlantingForm/PlantingForm.svelte"), tab: "beds", fixed: { id: "new" }, makes: "planting" },
  { at: "/beds/:bed/pots/new", load: () => import("./screens/PotsForm/PotsForm.svelte"), tab: "beds", fixed: { id: "new" }, makes: "planting" },
  { at: "/pots/:id", load: () => import("./screens/PotsForm/PotsForm.svelte"), tab: "beds", makes: "planting" },
  { at: "/plantings/:id", load: () => import("./screens/PlantingForm/PlantingForm.svelte"), tab: "beds", makes: "planting" },
  { at: "/checks/:id", load: () => import("./screens/Check/Check.svelte"), bare: true, makes: "gall_rating" },
  { at: "/samples", load: () => import("./screens/Samples/Samples.svelte"), tab: "samples" },
  { at: "/samples/new", load: () => import("./screens/SampleForm/SampleForm.svelte"), tab: "samples", fixed: { id: "new" }, makes: "soil_sample" },
  { at: "/samples/:id", load: () => import("./screens/SampleForm/SampleForm.svelte"), tab: "samples", makes: "soil_sample" },
  { at: "/samples/:id/take", load: () => import("./screens/Take/Take.svelte"), bare: true, makes: "soil_sample" },
  { at: "/samples/:sample/report/new", load: () => import("./screens/ReportForm/NewReport.svelte"), tab: "samples", makes: "assay_report" },
  { at: "/reports/:id", load: () => import("./screens/ReportForm/Report.svelte"), tab: "samples", makes: "assay_report" },
  { at: "/labs/new", load: () => import("./screens/LabForm/LabForm.svelte"), tab: "samples", fixed: { id: "new" }, makes: "lab_profile" },
  { at: "/labs/:id", load: () => import("./screens/LabForm/LabForm.svelte"), tab: "samples", makes: "lab_profile" },
  { at: "/labs/:id/form", load: () => import("./screens/OwnForm/OwnForm.svelte"), tab: "samples", makes: "lab_profile" },
  { at: "/papers/:id", load: () => import("./screens/Paper/Paper.svelte"), tab: "samples" },
  { at: "/work-out", load: () => import("./screens/WorkOut/WorkOut.svelte"), tab: "beds" },
  { at: "/work-out/:question", load: () => import("./screens/WorkOut/Question.svelte"), tab: "beds" },
  { at: "/print", load: () => import("./screens/Print/Print.svelte"), tab: "print" },
  { at: "/phone", load: () => import("./screens/Phone/Phone.svelte"), tab: "phone" },
  { at: "/leaving", load: () => import("./screens/Leaving/Leaving.svelte"), tab: "phone" },
  { at: "/needs-you", load: () => import("./screens/NeedsYou/NeedsYou.svelte"), tab: "phone" },
  { at: "/ended", load: () => import("./screens/Ended/Ended.svelte"), tab: "phone" },
  { at: "/helpers", load: () => import("./screens/Sharing/Sharing.svelte"), tab: "beds" },
  { at: "/history/:id", load: () => import("./screens/History/History.svelte"), tab: "beds" },
  { at: "/devices", load: () => import("./screens/Devices/Devices.svelte"), tab: "phone" },
  { at: "/home-screen", load: () => import("./screens/HomeScreen/HomeScreen.svelte"), tab: "phone" },
  { at: "/join", load: () => import("./screens/Join/Join.svelte"), open: true },
  { at: "/sign-in", load: () => import("./screens/SignIn/SignIn.svelte"), open: true },
  { at: "/pair", load: () => import("./screens/Pair/Pair.svelte"), open: true },
];
