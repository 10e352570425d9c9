// What an eye would see at once: words that are cut off, things that lie over
// each other, a page that does not fit its window.

import type { Page } from '@playwright/test';

/** What does not lie as it should; each with the words or the name it is known by. */
export function seen(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    /** What half a pixel of rounding may do, and a little of a letter's side. Unit: px. */
    const EDGE = 2;
    const PRESSED =
      'button, a[href], input:not(.spoken), select, textarea, summary, [role="row"], [role="tab"]';
    const { documentElement: page } = document;
    const modal = document.querySelector('dialog[open]');
    const root = modal ?? document.body;
    const found: string[] = [];

    interface Box {
      left: number;
      right: number;
      top: number;
      bottom: number;
    }

    const named = (at: Element) => {
      const words = (at.getAttribute('aria-label') ?? at.textContent ?? '').trim();
      const kind = [at.tagName.toLowerCase(), ...at.classList].filter(
        (one) => !/^s(velte)?-/.test(one),
      );
      return `${kind.join('.')} "${words.replace(/\s+/g, ' ').slice(0, 60)}"`;
    };
    const isSpoken = (at: Element) =>
      at.closest('.spoken, .unseen, [aria-hidden="true"], [inert]') !== null;
    const isSeen = (at: Element) =>
      at.checkVisibility({ visibilityProperty: true, opacityProperty: true });
    const scrolls = (style: string) => style === 'auto' || style === 'scroll';
    const clips = (style: string) => style === 'hidden' || style === 'clip';
    // A card or a slip that lies over the room does so on purpose.
    const layer = (at: Element) =>
      at.closest('dialog, [role="dialog"], [popover], [data-layer]') ?? page;

    const hasEdge = (at: Element) => {
      const { borderTopWidth, backgroundColor } = getComputedStyle(at);
      return borderTopWidth !== '0px' || !/, 0\)$|transparent/.test(backgroundColor);
    };

    /** How a box is cut off by what holds it; null where all of it is there, or can be scrolled to. */
    function cutOff(box: Box, from: Element): string | null {
      let { left, right, top, bottom } = box;
      for (let at: Element | null = from; at && at !== page; at = at.parentElement) {
        const style = getComputedStyle(at);
        if (style.display === 'inline' || style.display === 'contents') continue;
        const room = at.getBoundingClientRect();
        // What may end in three dots says so itself, and has its words in full elsewhere.
        if (style.textOverflow === 'ellipsis') right = Math.min(right, room.right);
        if (style.webkitLineClamp !== 'none') bottom = Math.min(bottom, room.bottom);
        const across = left < room.left - EDGE || right > room.right + EDGE;
        const down = top < room.top - EDGE || bottom > room.bottom + EDGE;
        if (across && clips(style.overflowX)) return `across, by ${named(at)}`;
        if (down && clips(style.overflowY)) return `down, by ${named(at)}`;
        if (scrolls(style.overflowX)) {
          // Nothing is ever scrolled to before the beginning.
          if (left + at.scrollLeft < room.left - EDGE) return `before ${named(at)}`;
          [left, right] = [room.left, room.right];
        }
        if (scrolls(style.overflowY)) {
          if (top + at.scrollTop < room.top - EDGE) return `above ${named(at)}`;
          [top, bottom] = [room.top, room.bottom];
        }
        if (at.tagName === 'DIALOG' || style.position === 'fixed') break;
      }
      if (left < -EDGE || right > innerWidth + EDGE) return 'across, by the window';
      if (top < -EDGE || bottom > innerHeight + EDGE) return 'down, by the window';
      return null;
    }

    /** The part of a box that is in sight; null where it is scrolled away. */
    function inSight(box: Box, of: Element): Box | null {
      let { left, right, top, bottom } = box;
      for (let at: Element | null = of; at && at !== page; at = at.parentElement) {
        const style = getComputedStyle(at);
        if (style.overflowX === 'visible' && style.overflowY === 'visible') continue;
        if (style.display === 'inline') continue;
        const room = at.getBoundingClientRect();
        [left, right] = [Math.max(left, room.left), Math.min(right, room.right)];
        [top, bottom] = [Math.max(top, room.top), Math.min(bottom, room.bottom)];
      }
      return right - left > EDGE && bottom - top > EDGE ? { left, right, top, bottom } : null;
    }

    const isOver = (one: Box, other: Box) =>
      Math.min(one.right, other.right) - Math.max(one.left, other.left) > EDGE &&
      Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > EDGE;

    // The page and the window: what is higher scrolls in its room, never the page.
    if (page.scrollWidth > innerWidth) found.push(`the page is ${page.scrollWidth} px wide`);
    if (page.scrollHeight > innerHeight) found.push(`the page is ${page.scrollHeight} px high`);

    // Each word lies whole in what holds it.
    const words: { at: Element; box: Box }[] = [];
    const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const at = node.parentElement;
      if (!at || !node.textContent?.trim() || isSpoken(at) || !isSeen(at)) continue;
      if (at.closest('svg, option, script, style')) continue;
      // Film runs on beyond its window, and the names of its frames with it.
      if (at.closest('.strip')) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      const boxes = [...range.getClientRects()].filter((box) => box.width > 1 && box.height > 1);
      const how = boxes.map((box) => cutOff(box, at)).find((one) => one !== null);
      if (how) found.push(`cut off ${how}: ${named(at)}`);
      for (const whole of boxes) {
        // The letters stand in the middle of their line.
        const air = whole.height * 0.2;
        const letters = { ...whole.toJSON(), top: whole.top + air, bottom: whole.bottom - air };
        const box = inSight(letters as Box, at);
        if (box) words.push({ at, box });
        const control = at.closest('button, .plate, .tag, select');
        const edge = control && hasEdge(control) ? control.getBoundingClientRect() : null;
        const out =
          edge &&
          (whole.left < edge.left - EDGE ||
            whole.right > edge.right + EDGE ||
            letters.top < edge.top - EDGE ||
            letters.bottom > edge.bottom + EDGE);
        if (control && out && !how) found.push(`spills out of its edge: ${named(control)}`);
      }
    }

    // No word over another.
    words.forEach((one, place) => {
      for (const other of words.slice(place + 1)) {
        if (one.at === other.at || !isOver(one.box, other.box)) continue;
        if (layer(one.at) !== layer(other.at)) continue;
        found.push(`words over words: ${named(one.at)} and ${named(other.at)}`);
      }
    });

    // No thing to press over another.
    const pressed = [...root.querySelectorAll(PRESSED)].flatMap((at) => {
      if (!isSeen(at) || isSpoken(at)) return [];
      const box = inSight(at.getBoundingClientRect(), at.parentElement ?? at);
      return box ? [{ at, box }] : [];
    });
    pressed.forEach((one, place) => {
      for (const other of pressed.slice(place + 1)) {
        if (one.at.contains(other.at) || other.at.contains(one.at)) continue;
        if (layer(one.at) !== layer(other.at) || !isOver(one.box, other.box)) continue;
        found.push(`to press, over each other: ${named(one.at)} and ${named(other.at)}`);
      }
    });
    return [...new Set(found)];
  });
}

/** What is too small for an unsteady hand: less than 44 px high, anywhere in a region. */
export function tooSmall(page: Page, region: string): Promise<string[]> {
  const pressed = page.getByRole('region', { name: region, exact: true }).locator('button:visible');
  return pressed.evaluateAll((all) => {
    const small = all.flatMap((one) => {
      const { width, height } = one.getBoundingClientRect();
      const words = (one.textContent ?? '').trim().replace(/\s+/g, ' ');
      const isSmall = width < 44 || height < 44;
      return isSmall ? [`${words}: ${Math.round(width)} × ${Math.round(height)} px`] : [];
    });
    return all.length > 0 ? small : ['nothing to press is there'];
  });
}
