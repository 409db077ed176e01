"""What every screen is measured for: axe's rules and the size of what can be tapped."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page, expect

from tests.end_to_end.phone import Phone

AXE_SOURCE = Path(__file__).resolve().parents[2] / "frontend/node_modules/axe-core/axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
TARGET_PX, GRADE_KEY_PX = 48, 64
WIDTHS_PX = (320, 360, 768, 1280)
PHONE_PX, DESK_PX = {"width": 360, "height": 640}, {"width": 1280, "height": 800}
# The base is 112.5 % of the browser's own size.
TWICE_AS_LARGE = "() => document.documentElement.style.setProperty('font-size', '225%')"

RUN_AXE = """async (tags) => {
  const answer = await axe.run(document, {
    runOnly: {type: 'tag', values: tags},
    rules: {'color-contrast-enhanced': {enabled: true}},
  });
  return answer.violations.flatMap(v => v.nodes.map(n =>
    `${v.id}: ${n.target.join(' ')} ${n.failureSummary.split('\\n').slice(1).join(' ')}`));
}"""

# A link inside a sentence is exempt (WCAG 2.2, 2.5.8 "inline"); an input hidden inside its label
# is pressed through the label, so the label's box counts.
SMALL_TARGETS = """(least) => {
  const said = [];
  const all = 'a[href], button, input, select, textarea, summary, [role=button], [tabindex="0"]';
  for (const one of document.querySelectorAll(all)) {
    if (one.disabled || one.closest('[inert], [hidden], [aria-hidden=true]')) continue;
    if (one.matches('p a')) continue;
    const label = one.labels && one.labels[0];
    const choice = one.matches('[type=checkbox], [type=radio], [type=file]');
    const box = (choice && label ? label : one).getBoundingClientRect();
    const shown = one.checkVisibility({visibilityProperty: true});
    if (!shown || box.width === 0 || box.right <= 0 || box.bottom <= -500) continue;
    if (box.width < least - 0.5 || box.height < least - 0.5) {
      const name = (one.getAttribute('aria-label') || one.textContent || one.id || one.name || '');
      const size = `${Math.round(box.width)}x${Math.round(box.height)}`;
      said.push(`${one.tagName} "${name.trim().slice(0, 40)}" ${size}`);
    }
  }
  return said;
}"""

WIDER_THAN_SCREEN = """() => [...document.querySelectorAll('html, main, dialog[open]')]
  .filter(one => one.scrollWidth > one.clientWidth)
  .map(one => `${one.tagName} is ${one.scrollWidth} px wide where ${one.clientWidth} are shown`)"""


# Only what lies in the frame may scroll; a page longer than the screen slides away under a thumb.
TALLER_THAN_SCREEN = """() => {
  const {scrollHeight, clientHeight} = document.documentElement;
  const said = `the page is ${scrollHeight} px tall where ${clientHeight} are shown`;
  return scrollHeight > clientHeight + 1 ? [said] : [];
}"""


def axe_violations(page: Page) -> list[str]:
    """Run axe in the page; the source goes in by evaluate, because the CSP refuses a script tag."""
    page.evaluate(AXE_SOURCE.read_text())
    return page.evaluate(RUN_AXE, TAGS)


def small_targets(page: Page, least_px: int = TARGET_PX) -> list[str]:
    """List what can be tapped and is smaller than a thumb in a glove needs."""
    wrong = page.evaluate(WIDER_THAN_SCREEN) + page.evaluate(TALLER_THAN_SCREEN)
    return page.evaluate(SMALL_TARGETS, least_px) + wrong


def settle(phone: Phone) -> None:
    """Wait until the screen has its heading and nothing moves on it any more."""
    expect(phone.page.get_by_role("main").get_by_role("heading").first).to_be_visible()
    phone.page.wait_for_timeout(250)


def findings(phone: Phone) -> list[str]:
    """What stands in the way on the screen that is shown, in both schemes and every width."""
    found = []
    for scheme in ("light", "dark"):
        phone.page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        found += [f"{scheme}: {line}" for line in axe_violations(phone.page)]
    for width in WIDTHS_PX:
        phone.page.set_viewport_size({"width": width, "height": 640})
        found += [f"{width} px: {line}" for line in small_targets(phone.page)]
    phone.page.set_viewport_size(PHONE_PX)
    return found


def findings_at(phone: Phone, paths: list[str]) -> dict[str, list[str]]:
    """The same of each address; only those with findings."""
    found = {}
    for path in paths:
        phone.open(path)
        settle(phone)
        found[path] = findings(phone)
    return {path: lines for path, lines in found.items() if lines}


def findings_in_both_schemes(phone: Phone) -> list[str]:
    """What stands in the way at the width the screen has now."""
    found = phone.page.evaluate(WIDER_THAN_SCREEN)
    for scheme in ("light", "dark"):
        phone.page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
        found += [f"{scheme}: {line}" for line in axe_violations(phone.page)]
    return found
