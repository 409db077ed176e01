/** The project's own server as a child process with its own data folder, on this machine only. */
import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const ROOT = resolve(import.meta.dirname, "../../..");
const PYTHON = join(ROOT, process.platform === "win32" ? ".venv/Scripts/python.exe" : ".venv/bin/python");
const realFetch = globalThis.fetch; // the tests put each phone's line in its place
export const GROWER = { username: "marisol", password: "a pass phrase of the tests" };

export class RealServer {
  readonly data = mkdtempSync(join(tmpdir(), "knotbed-vitest-"));
  private process: ChildProcess | null = null;
  private port = 0;

  /** `settings`: other than the product's own, where a test needs hundreds of sign-ins to be quick. */
  constructor(private settings = "api.settings") {}

  async prepare(): Promise<void> {
    this.manage("migrate", "--verbosity", "0");
    this.manage("createsuperuser", "--noinput", "--username", GROWER.username, "--email", "grower@garden.test");
    await this.start();
  }

  async start(): Promise<void> {
    this.port ||= await freePort();
    const words = ["-m", "granian", "--interface", "wsgi", "--host", "127.0.0.1", "--port", String(this.port), "api.wsgi:application"];
    this.process = spawn(PYTHON, words, { cwd: ROOT, env: this.env(), stdio: "ignore" });
    for (let attempt = 0; attempt < 200; attempt += 1) {
      if (await this.answers()) return;
      await new Promise((wake) => setTimeout(wake, 100));
    }
    throw new Error("the server does not answer");
  }

  async stop(): Promise<void> {
    const { process: child } = this;
    if (!child) return;
    const gone = new Promise((done) => child.once("exit", done));
    child.kill("SIGTERM");
    await gone;
    this.process = null;
  }

  /** A copy of the data folder, taken by hand while the server is stopped: nobody announces it. */
  async backup(): Promise<string> {
    await this.stop();
    const copy = `${this.data}-backup`;
    cpSync(this.data, copy, { recursive: true });
    await this.start();
    return copy;
  }

  async restore(copy: string): Promise<void> {
    await this.stop();
    rmSync(this.data, { recursive: true });
    cpSync(copy, this.data, { recursive: true });
    await this.start();
  }

  async end(): Promise<void> {
    await this.stop();
    for (const folder of [this.data, `${this.data}-backup`]) rmSync(folder, { recursive: true, force: true });
  }

  /** A browser's line to the server: one cookie jar. */
  line(): typeof fetch {
    const jar = new Map<string, string>();
    return async (input, init = {}) => {
      const headers = new Headers(init.headers);
      headers.set("Cookie", [...jar].map(([name, value]) => `${name}=${value}`).join("; "));
      const answer = await realFetch(new URL(String(input), `http://127.0.0.1:${this.port}`), { ...init, headers });
      for (const cookie of answer.headers.getSetCookie()) {
        const [name, value] = cookie.split(";")[0]!.split("=") as [string, string];
        jar.set(name, value);
      }
      return answer;
    };
  }

  /** A small HEIC picture, made by the library the server reads it with. */
  heic(): Blob {
    const path = join(this.data, "picture.heic");
    const code = `from PIL import Image; import pillow_heif; pillow_heif.register_heif_opener(); Image.new("RGB", (640, 480), "peru").save(${JSON.stringify(path)})`;
    execFileSync(PYTHON, ["-c", code], { cwd: ROOT });
    return new Blob([readFileSync(path)]);
  }

  /** More growers with the same password. */
  makeAccounts(names: string[]): void {
    const made = `[create(username=name, password=${JSON.stringify(GROWER.password)}) for name in ${JSON.stringify(names)}]`;
    this.run(`from gardens.services.first_account import create; ${made}`);
  }

  /** Some lines of Python with the project's own models, beside the running server. */
  run(code: string): void {
    this.manage("shell", "--no-imports", "-c", code);
  }

  /** Look into the database from outside, read only; a copy of SQLite's own is not needed for that. */
  ask<T>(question: string, ...values: string[]): T[] {
    const code = "import json, sqlite3, sys; path, question, *values = sys.argv[1:]; print(json.dumps(sqlite3.connect(f'file:{path}?mode=ro', uri=True).execute(question, values).fetchall()))";
    const said = execFileSync(PYTHON, ["-c", code, join(this.data, "db.sqlite3"), question, ...values], { maxBuffer: 64e6 });
    return JSON.parse(said.toString()) as T[];
  }

  private async answers(): Promise<boolean> {
    return realFetch(`http://127.0.0.1:${this.port}/api/v1/meta`).then((answer) => answer.ok, () => false);
  }

  private manage(...words: string[]): void {
    execFileSync(PYTHON, ["manage.py", ...words], { cwd: ROOT, env: this.env(), stdio: "pipe" });
  }

  private env(): NodeJS.ProcessEnv {
    const kept = Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(KNOTBED_|DATABASE_URL|DJANGO_)/.test(name)));
    return { ...kept, KNOTBED_DATA_DIR: this.data, DJANGO_SETTINGS_MODULE: this.settings, DJANGO_SUPERUSER_PASSWORD: GROWER.password };
  }
}

function freePort(): Promise<number> {
  return new Promise((found) => {
    const probe = createServer().listen(0, "127.0.0.1", () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => found(port));
    });
  });
}
