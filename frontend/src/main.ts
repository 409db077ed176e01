import "@fontsource-variable/atkinson-hyperlegible-next/wght.css";
import "./styles/tokens.css";
import "./styles/base.css";
import { mount } from "svelte";
import App from "./App.svelte";
import { followLinks } from "./router.ts";
import { watchForInstall } from "./install.ts";
import { startOnlyOwnScripts } from "./ownscripts.ts";
import { watchForUpdates } from "./update.ts";

startOnlyOwnScripts(window as object);
followLinks();
watchForInstall();
void watchForUpdates();

export default mount(App, { target: document.getElementById("app")! });
