"""What every screen is measured for: axe's rules and the size of what can be tapped."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page

AXE_SOURCE = Path(__file__).resolve().parents[2] / "frontend/node_modules/axe-core/axe.min.js"
TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
TARGET_PX, GRADE_KEY_PX = 48, 64

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


def axe_violations(page: Page) -> list[str]:
    """Run axe in the page; the source goes in by evaluate, because the CSP refuses a script tag."""
    page.evaluate(AXE_SOURCE.read_text())
    return page.evaluate(RUN_AXE, TAGS)


def small_targets(page: Page, least_px: int = TARGET_PX) -> list[str]:
    """List what can be tapped and is smaller than a thumb in a glove needs."""
    return page.evaluate(SMALL_TARGETS, least_px) + page.evaluate(WIDER_THAN_SCREEN)
