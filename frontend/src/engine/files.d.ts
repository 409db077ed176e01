declare module "virtual:engine-files" {
  const engine: import("../../build/engine").EngineFiles;
  export default engine;
}
