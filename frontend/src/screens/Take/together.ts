/** Which bags make one parcel with a bag: for the same lab, and none of them sent. */
import type { Shown } from "../../db/kinds.ts";

type Bag = Shown<"soil_sample">;

const hasLeft = ({ doc }: Bag) => Boolean(doc.parcel?.sent_on ?? doc.parcel?.arrived_on ?? doc.handed_over);

/** This bag first, then the others, oldest first; alone while no lab is chosen. */
export function togetherWith(bag: Bag, samples: Bag[]): Bag[] {
  const lab = bag.doc.lab_profile;
  const others = lab === null ? [] : samples.filter((one) => one.id !== bag.id && one.doc.lab_profile === lab && !hasLeft(one));
  return [bag, ...others];
}
