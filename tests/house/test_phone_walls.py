import json
import shutil
import subprocess

import pytest

from api.bootstrap import node
from tests.house.tree import ROOT

FRONTEND = ROOT / "frontend"
CRUISE = FRONTEND / "node_modules/dependency-cruiser/bin/dependency-cruise.mjs"

# file, its line, the wall it breaks
WRONG = [
    ("src/screens/Beds/Beds.svelte", 'import Dexie from "dexie";', "only-db-knows-dexie"),
    ("src/sync/loop.ts", 'import { Dexie } from "dexie";\nnew Dexie("x");', "only-db-knows-dexie"),
    ("src/db/wrong.ts", 'import { go } from "../sync/push";\ngo();', "db-stands-alone"),
    ("src/capture/code.ts", 'import { go } from "../db/save";\ngo();', "capture-stands-alone"),
    (
        "src/components/Card.svelte",
        'import { go } from "../db/save"; go();',
        "components-draw-what-they-are-given",
    ),
    ("src/screens/Beds/Row.svelte", 'import Bed from "../Bed/Bed.svelte";', "screens-live-apart"),
    (
        "src/screens/Phone/send.ts",
        'import { go } from "../../sync/push";\ngo();',
        "screens-see-the-public-side-of-sync",
    ),
    ("src/text/en.ts", 'import { go } from "../db/save";\ngo();', "text-says-only"),
    ("src/routes.ts", 'import App from "./App.svelte";\nApp;', "nothing-imports-the-app"),
    ("src/sw.ts", 'import { go } from "./db/save";\ngo();', "worker-stands-alone"),
    ("src/db/one.ts", 'export * from "./two";', "no-cycles"),
]
RIGHT = [
    ("src/db/save.ts", "export type Saved = string;\nexport function go() {}"),
    ("src/db/kinds.ts", "export type Kind = string;"),
    (
        "src/sync/push.ts",
        'import { go as save } from "../db/save";\nexport function go() { save(); }',
    ),
    ("src/sync/status.ts", "export const status = 1;"),
    ("src/screens/Bed/Bed.svelte", 'import { status } from "../../sync/status"; status;'),
    ("src/components/Chip.svelte", 'import type { Kind } from "../db/kinds"; export let k: Kind;'),
    ("src/App.svelte", 'import Bed from "./screens/Bed/Bed.svelte";'),
]


def put(top, name, code):
    path = top / name
    path.parent.mkdir(parents=True, exist_ok=True)
    if name.endswith(".svelte"):
        code = f'<script lang="ts">\n{code}\n</script>\n<p>x</p>\n'
    path.write_text(code)


@pytest.fixture(scope="module")
def broken_rules(tmp_path_factory):
    top = tmp_path_factory.mktemp("phone")
    for name in (".dependency-cruiser.cjs", "tsconfig.json", "package.json"):
        shutil.copy(FRONTEND / name, top)
    (top / "node_modules").symlink_to(FRONTEND / "node_modules")
    for name, code, *_ in [*RIGHT, *WRONG]:
        put(top, name, code)
    put(top, "src/db/two.ts", 'export * from "./one";')
    argv = ["node", str(CRUISE), "src", "--config", ".dependency-cruiser.cjs", "-T", "json"]
    done = subprocess.run(argv, cwd=top, env=node.provide().env, capture_output=True, text=True)
    summary = json.loads(done.stdout)["summary"]
    return {(one["from"], one["rule"]["name"]) for one in summary["violations"]}


@pytest.mark.parametrize(("name", "rule"), [(name, rule) for name, _, rule in WRONG])
def test_a_wrong_import_is_seen(broken_rules, name, rule):
    assert (name, rule) in broken_rules


@pytest.mark.parametrize("name", [name for name, _ in RIGHT])
def test_a_right_import_is_let_through(broken_rules, name):
    assert [rule for where, rule in broken_rules if where == name] == []
