// The walls of the phone app. Run them with: python3 manage.py test (or here: npm run walls)
//   capture, text, styles, tables <- db <- sync <- engine <- screens <- App;  components draw what they are given.
// When a rule trips, move the code; do not add an exception.
// That fetch is called in src/sync only is checked by tests/house: this tool sees imports, not calls.

const only = (name, from, to, comment) => ({
  name,
  severity: "error",
  comment,
  from: { path: from },
  to: { pathNot: to, dependencyTypesNot: ["npm", "npm-dev", "core"] },
});
const never = (name, from, to, comment) => ({ name, severity: "error", comment, from, to });

const LENGTHS = "^src/capture/(lengths|warmth)\\.ts$"; // how a length and a warmth are written and read
const SHAPES = "^src/db/(kinds|told)\\.ts$"; // of records, and of what is known of them
const CLOCK = "^src/text/zone\\.ts$"; // hours and days on a garden's clock
const TABLES = "^\\.\\./fixtures/";
const BUILT = "^virtual:engine-files$"; // written by build/engine.ts
const BESIDE_CODE = "\\.(css|svg|json|woff2)$";

module.exports = {
  forbidden: [
    never("no-cycles", {}, { circular: true }, "Two modules that need each other are one module, or three."),
    never("resolvable", {}, { couldNotResolve: true, pathNot: BUILT }, "An import that leads nowhere."),
    never("declared", {}, { dependencyTypes: ["npm-no-pkg", "npm-unknown"] }, "Packages are declared and locked."),

    never("only-db-knows-dexie", { path: "^src", pathNot: "^src/db/" }, { path: "node_modules/dexie" },
      "The phone's database has one door."),
    only("db-stands-alone", "^src/db/", ["^src/db/", "^src/capture/", CLOCK, TABLES],
      "Saving never waits for the network or a screen, so db cannot even name them."),
    only("capture-stands-alone", "^src/capture/", ["^src/capture/", "^src/db/kinds\\.ts$", TABLES],
      "Taking a reading knows neither storage nor network; it may know the shape of a record."),
    only("sync-knows-db", "^src/sync/", ["^src/sync/", "^src/db/", "^src/capture/", TABLES, BUILT],
      "The network side draws nothing."),
    only("engine-asks-and-answers", "^src/engine/", ["^src/engine/", "^src/sync/enginefiles\\.ts$", "^build/engine\\.ts$"],
      "The engine is handed records and hands back answers; it neither reads nor saves them."),
    never("saving-never-waits-for-the-engine", { path: "^src/(db|sync|capture|components|text)/" }, { path: "^src/engine/" },
      "Only a screen asks the engine, and only for what it shows."),
    never("the-engine-has-one-door", { path: "^src/", pathNot: "^src/engine/" }, { path: "^src/engine/", pathNot: "^src/engine/engine\\.ts$" },
      "What runs the core is the engine's own affair."),
    only("text-says-only", "^src/text/", ["^src/text/", SHAPES, LENGTHS, TABLES],
      "Sentences depend on nothing but the names of the records."),
    only("components-draw-what-they-are-given", "^src/components/",
      ["^src/components/", "^src/text/", "^src/styles/", SHAPES, LENGTHS, TABLES, BESIDE_CODE],
      "A component that fetches its own data cannot be drawn anywhere else."),

    never("screens-live-apart", { path: "^src/screens/([^/]+)/" }, { path: "^src/screens/", pathNot: "^src/screens/$1/" },
      "What two screens share is a component."),
    never("screens-see-the-public-side-of-sync", { path: "^src/screens/" },
      { path: "^src/sync/", pathNot: "^src/sync/(status|session|loop|sheets|calendar|forms|joining|sharing|history|carrying)\\.ts$" },
      "A screen asks for a sign-in, a sheet, a link or a file; it never speaks the protocol."),
    never("nothing-imports-the-app", { path: "^src/", pathNot: "^src/main\\.ts$" }, { path: "^src/(App\\.svelte|main\\.ts)$" },
      "The app stands on top."),
    never("worker-stands-alone", { path: "^src/sw\\.ts$" }, { path: "^src/" },
      "The service worker is small and knows nothing of the records."),
    never("no-tests-in-the-app", { path: "^src/" }, { path: "^tests/" }, "Code never leans on its checks."),
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { extensions: [".ts", ".d.ts", ".js", ".svelte", ".json"], exportsFields: ["exports"],
      conditionNames: ["svelte", "import", "browser", "types", "default"] },
  },
};
