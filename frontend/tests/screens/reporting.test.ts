import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds.ts";
import { countProblem, emptyFinding, emptyReport, formOf, isComplete, perOf, reportOf } from "../../src/screens/ReportForm/reporting.ts";

test("a report goes into its boxes and comes out as it was", () => {
  const doc = withDefaults("assay_report", {
    soil_sample: "s",
    lab_profile: "l",
    reported_on: "2031-08-20",
    method: "tray",
    examined: { soil: "250 cc", counted_pct: 10 },
    found: [
      { taxon: "root_knot", stage: "j2", result: "counted", count: 40, per: "250 cc", as_written: "Meloidogyne 40" },
      { taxon: "lesion", stage: "not_said", result: "none_recovered", count: null, per: "", as_written: "" },
    ],
    hazard: "moderate",
  });
  expect(reportOf(formOf(doc), "s")).toEqual(doc);
});

test("only a number is kept as a number: a count left behind by a changed mind goes", () => {
  const form = { ...emptyReport("2031-08-20", null, ""), found: [{ ...emptyFinding("pint"), result: "none_recovered" as const, count: 12 }] };
  expect(reportOf(form, "s").found?.[0]).toMatchObject({ result: "none_recovered", count: null, per: "pint" });
  expect(reportOf(form, "s").examined).toBeNull();
});

test("a number must be there, and nought is not one", () => {
  const finding = emptyFinding();
  expect(countProblem(finding)).toBe("missing");
  expect(countProblem({ ...finding, count: 0 })).toBe("zero");
  expect(countProblem({ ...finding, count: 0.5 })).toBe("");
  expect(countProblem({ ...finding, result: "seen" })).toBe("");
  expect(isComplete({ ...emptyReport("2031-08-20", null, ""), found: [] })).toBe(true);
  expect(isComplete({ ...emptyReport("", null, ""), found: [] })).toBe(false);
});

test("a lab's unit stands behind per without saying it twice", () => {
  expect(perOf(" per 100 cm³ of soil")).toBe("100 cm³ of soil");
  expect(perOf("pint")).toBe("pint");
});
