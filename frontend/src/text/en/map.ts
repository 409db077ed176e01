// The words of maps: beds, gardens and the marks on them.
export const map = {
  larger: "Show the map larger",
  smaller: "Show the map smaller",
  garden: "The garden, drawn to scale",
  bed: (name: string) => `Map of ${name}`,
  pan: { left: "Show more on the left", right: "Show more on the right", up: "Show more above", down: "Show more below" },
  list: "The same as a list",
  plant: (n: number | null, nth: number) => (n === null ? `Spot ${nth}` : `Plant ${n}`),
  grade: (grades: number[]) => (grades.length > 1 ? `read ${grades.length} times: ${grades.join(" and ")}` : `grade ${grades[0]}`),
  state: { unrated: "not rated", missing: "missing", dead: "dead" },
  topEdge: "top edge of the bed",
  lies: "Drawn lying down: the top edge of the bed is at the left.",
  topEdgeLines: ["top edge", "of the bed"],
  start: "start",
  key: "number: plant · ring: grade",
  turned: (long: string, wide: string) => `${long} long, ${wide} wide, drawn to scale`,
};
