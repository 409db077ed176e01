/** A phone of a test against the real server: its own disk, its own cookies, and a line that may be bad. */
import Dexie from "dexie";
import { IDBFactory } from "fake-indexeddb";
import { vi } from "vitest";
import { BadLine, type Counts, type LineFault } from "./bad_line";
import { first, newAccount, openTab, startTab, type Tab } from "./phone";
import { GROWER, type RealServer } from "./real_server";

export interface Plan {
  at: number;
  fault: LineFault;
}

export class GrowersPhone {
  readonly password = GROWER.password;
  private constructor(
    public tab: Tab,
    private disk: IDBFactory,
    private plain: typeof fetch,
    readonly line: BadLine,
  ) {}

  static async signedIn(server: RealServer, username: string, counts: Counts): Promise<GrowersPhone> {
    const disk = new IDBFactory();
    Dexie.dependencies.indexedDB = disk;
    localStorage.clear();
    const tab = await openTab(newAccount());
    const plain = server.line();
    vi.stubGlobal("fetch", plain);
    await tab.sync.signIn(username, GROWER.password);
    await vi.waitUntil(async () => (await first(tab.sync.line)).state === "reached", { timeout: 20_000, interval: 5 });
    return new GrowersPhone({ ...tab, account: tab.db().account }, disk, plain, new BadLine(plain, counts));
  }

  /** One round with the server; a phone that dies in it is switched on again. */
  async sync(plan: Plan | null = null): Promise<boolean> {
    let failed = false;
    const act = () => this.tab.sync.syncRound().catch((error: unknown) => {
      failed = true;
      throw error;
    });
    if (await this.line.work(act, plan)) return !failed;
    await this.switchOn();
    return false;
  }

  /** Ask the server by hand, as this phone. */
  async get<T>(path: string): Promise<T> {
    const answer = await this.plain(`/api/v1${path}`);
    return (await answer.json()) as T;
  }

  private async switchOn(): Promise<void> {
    await this.tab.house.leaveHouse(); // Dexie opens a dead handle anew, and a dead phone must not go on
    Dexie.dependencies.indexedDB = this.disk;
    const { account } = this.tab;
    const tab = await startTab(account);
    await tab.house.openHouse(account);
    this.tab = tab;
  }
}
