// What an eye would see at once: words that are cut off, things that lie over
// each other, a page that does not fit its window.

import type { Page } from '@playwright/test';

/** What does not lie as it should; each with the words or the name it is known by. */
export function seen(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const root = document.querySelector('dialog[open]') ?? document.body;
    const edge = 1.5;

    const named = (at: Element) => {
      const words = (at.getAttribute('aria-label') ?? at.textContent ?? '').trim();
      const kind = at.tagName.toLowerCase() + (at.id ? `#${at.id}` : '');
      const style = typeof at.className === 'string' ? at.className.replace(/s-\S+/g, '') : '';
      return `${kind}.${style.trim()} "${words.replace(/\s+/g, ' ').slice(0, 60)}"`;
    };
    const isSpoken = (at: Element) => at.closest('.spoken, .unseen, [aria-hidden="true"]') !== null;
    const isSeen = (at: Element) => at.checkVisibility({ visibilityProperty: true });

    // The page and the window.
    const { documentElement: page } = document;
    if (page.scrollWidth > innerWidth) found.push(`the page is ${page.scrollWidth} px wide`);
    if (page.scrollHeight > innerHeight) found.push(`the page is ${page.scrollHeight} px high`);

    // Each word lies whole inside of what clips it, or can be scrolled to.
    const scrolls = (style: string) => style === 'auto' || style === 'scroll';
    const clips = (style: string) => style === 'hidden' || style === 'clip';
    function cutOff(box: DOMRect, from: Element): string | null {
      let { left, right, top, bottom } = box;
      for (let at: Element | null = from; at && at !== page; at = at.parentElement) {
        const style = getComputedStyle(at);
        const room = at.getBoundingClientRect();
        // What may be left off with three dots says so itself.
        if (style.textOverflow === 'ellipsis') return null;
        const across = left < room.left - edge || right > room.right + edge;
        const down = top < room.top - edge || bottom > room.bottom + edge;
        if (across && clips(style.overflowX)) return `across ${named(at)}`;
        if (down && clips(style.overflowY)) return `down ${named(at)}`;
        // Beyond a container that scrolls the word can be brought into sight.
        if (scrolls(style.overflowX)) [left, right] = [room.left, room.right];
        if (scrolls(style.overflowY)) [top, bottom] = [room.top, room.bottom];
        if (at.tagName === 'DIALOG' || style.position === 'fixed') break;
      }
      if (left < -edge || right > innerWidth + edge) return 'across the window';
      if (top < -edge || bottom > innerHeight + edge) return 'down the window';
      return null;
    }
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const at = node.parentElement;
      if (!at || !node.textContent?.trim() || isSpoken(at) || !isSeen(at)) continue;
      if (at.closest('svg, option, script, style')) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const box of range.getClientRects()) {
        if (box.width < 1 || box.height < 1) continue;
        const how = cutOff(box, at);
        if (how) found.push(`cut off ${how}: ${named(at)}`);
        if (how) break;
      }
    }
    return [...found, ...overlapping()];

    /** Things to press that lie over each other, and words over other words. */
    function overlapping(): string[] {
      const PRESSED = 'button, a[href], input, select, textarea, summary, label, [role="row"]';
      const all = [...root.querySelectorAll(PRESSED)].filter(
        (at) => isSeen(at) && !isSpoken(at) && at.closest('dialog') === root.closest('dialog'),
      );
      const boxes = all.map((at) => inSight(at)).filter((one) => one !== null);
      const over: string[] = [];
      boxes.forEach((one, place) => {
        for (const other of boxes.slice(place + 1)) {
          if (one.at.contains(other.at) || other.at.contains(one.at)) continue;
          // A card that opens over the room lies over it on purpose.
          if (one.at.closest('[role="dialog"]') !== other.at.closest('[role="dialog"]')) continue;
          const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
          const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
          if (across > edge && down > edge)
            over.push(`over each other: ${named(one.at)} and ${named(other.at)}`);
        }
      });
      return over;
    }

    /** The part of a thing that is not scrolled away; null where nothing of it is. */
    function inSight(of: Element) {
      let { left, right, top, bottom } = of.getBoundingClientRect();
      for (let at = of.parentElement; at && at !== page; at = at.parentElement) {
        const style = getComputedStyle(at);
        if (style.overflowX === 'visible' && style.overflowY === 'visible') continue;
        const room = at.getBoundingClientRect();
        [left, right] = [Math.max(left, room.left), Math.min(right, room.right)];
        [top, bottom] = [Math.max(top, room.top), Math.min(bottom, room.bottom)];
      }
      return right - left > 0 && bottom - top > 0 ? { at: of, left, right, top, bottom } : null;
    }
  });
}
