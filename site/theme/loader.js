/*
 * The loader wakes the tunes of a lesson: it starts the engine once, when the
 * first tune comes near the screen or is touched, and hands it the click that
 * came too early. Without it the page stays as it was printed.
 *
 * It is a classic script, because a page opened from disk may not run modules
 * or fetch anything. There, and wherever fetching fails, the engine comes as a
 * second classic script that holds it packed.
 */
(function () {
  'use strict';

  /** The files, named on this script's own element, lie beside it. */
  const files = document.currentScript.dataset;
  const home = document.currentScript.src;
  const blocks = document.querySelectorAll('section.ready');

  /** How far from the screen a tune is woken, so that it is awake in time. */
  const NEAR = '400px';

  /** How much garbage, in percent of what lives, the engine lets lie before it sweeps: a sweep is felt in a click (guess). */
  const GARBAGE = 400;

  let started = false;
  let awake = false;
  /** @type {?{control: Element, value: (string|undefined)}} what was asked for before anyone could answer */
  let early = null;

  /**
   * Adds a classic script to the page.
   * @param {string} name file beside this one
   * @returns {Promise<void>} settled when it has run
   */
  function script(name) {
    return new Promise(function (resolve, reject) {
      const s = document.createElement('script');
      s.src = new URL(name, home).href;
      s.onload = function () { resolve(); };
      s.onerror = function () { reject(new Error(name)); };
      document.head.appendChild(s);
    });
  }

  /**
   * The engine, fetched as it is.
   * @returns {Promise<WebAssembly.Module>}
   */
  function fetched() {
    return WebAssembly.compileStreaming(fetch(new URL(files.wasm, home).href));
  }

  /**
   * The engine, unpacked from a script: gzip, written in base64.
   * @returns {Promise<WebAssembly.Module>}
   */
  function unpacked() {
    return script(files.fallback).then(function () {
      const text = atob(self.readyhandEngine);
      self.readyhandEngine = undefined;
      const bytes = new Uint8Array(text.length);
      for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
      const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
      return WebAssembly.compileStreaming(
        new Response(stream, { headers: { 'Content-Type': 'application/wasm' } }));
    });
  }

  /**
   * Starts the engine; it says "readyhand" when it listens.
   * @returns {Promise<void>} settled when it has stopped, which it should not
   */
  function run() {
    const overWire = location.protocol === 'http:' || location.protocol === 'https:';
    const engine = overWire ? fetched().catch(unpacked) : unpacked();
    return Promise.all([engine, script(files.exec)]).then(function (got) {
      const go = new Go();
      go.env = { GOGC: String(GARBAGE) };
      return WebAssembly.instantiate(got[0], go.importObject).then(function (instance) {
        return go.run(instance);
      });
    });
  }

  function start() {
    if (started) return;
    started = true;
    if (typeof WebAssembly !== 'object' || !WebAssembly.compileStreaming) {
      excuse('This browser is too old to answer here; the tune and its fingers are as printed.');
      return;
    }
    run().then(function () { throw new Error('stopped'); }).catch(function () {
      excuse(awake
        ? 'This page has stopped answering. Load it again; what you chose is in its address.'
        : 'This page cannot answer just now; the tune and its fingers are as printed. Load it again to try once more.');
    });
  }

  /**
   * Takes the controls back that nobody answers, and puts one quiet line in
   * their place, under the head of every tune.
   * @param {string} why
   */
  function excuse(why) {
    early = null;
    blocks.forEach(function (block) {
      block.classList.remove('waking', 'live');
      const line = document.createElement('p');
      line.className = 'quiet';
      line.textContent = why;
      block.insertBefore(line, block.children[1]);
    });
  }

  /**
   * Keeps the first thing asked for until the engine can answer it.
   * @param {Event} event
   */
  function keep(event) {
    const control = event.target.closest('section.ready [data-do]');
    if (awake || !control) return;
    const field = control.matches('select, input, textarea');
    if (event.type === 'keydown') {
      if (control.matches('button') || field || (event.key !== 'Enter' && event.key !== ' ')) return;
      event.preventDefault();
    } else if (field !== (event.type === 'change')) {
      return;
    }
    if (!early) early = { control: control, value: field ? control.value : undefined };
    start();
  }

  /** Asks once more what was asked too early, of the control as it is now. */
  function replay() {
    awake = true;
    if (!early) return;
    const was = early.control;
    const control = was.isConnected ? was : document.getElementById(was.id);
    const value = early.value;
    early = null;
    if (!control) return;
    if (value === undefined) {
      control.dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true }));
      return;
    }
    control.value = value;
    control.dispatchEvent(new Event('change', { bubbles: true }));
  }

  /**
   * Sets what is inside an element; what the reader has folded or unfolded in it
   * stays so: what has an id by that, the others as long as there is as much to fold.
   * @param {Element} element
   * @param {string} html
   */
  function set(element, html) {
    const before = element.querySelectorAll('details:not([id])');
    const open = Array.from(element.querySelectorAll('details[id][open]'), function (d) { return d.id; });
    element.innerHTML = html;
    const after = element.querySelectorAll('details:not([id])');
    if (after.length === before.length) after.forEach(function (d, i) { d.open = before[i].open; });
    element.querySelectorAll('details[id]').forEach(function (d) { d.open = open.includes(d.id); });
  }

  /**
   * Gives the keyboard to the element named want, else to the one that had it or its
   * successor by id, else to the block, so that the next Tab goes on from there. Only
   * a wanted one scrolls.
   * @param {Element} had who had it before what it stood in was set
   * @param {?Element} block where that was
   * @param {string} want
   */
  function refocus(had, block, want) {
    const wanted = document.getElementById(want);
    if (!wanted && (!block || had.isConnected)) return;
    const to = wanted || document.getElementById(had.id) || block;
    if (to === block) block.tabIndex = -1;
    for (let d = to.closest('details:not([open])'); d && d.firstElementChild !== to; d = d.parentElement.closest('details:not([open])')) d.open = true;
    to.focus({ preventScroll: want === '' });
  }

  /** @type {?Element} who had the keyboard when something was said */
  let asker = null;

  /**
   * Folds what is said to two lines, or unfolds it.
   * @param {Element} told
   * @param {boolean} whole
   */
  function unfold(told, whole) {
    const button = told.querySelector('.unfold');
    told.classList.toggle('whole', whole);
    button.textContent = whole ? 'Less' : 'More';
    button.setAttribute('aria-expanded', String(whole));
  }

  /**
   * Shows something new that is said: folded, and with a button for the rest once it
   * is known whether there is any.
   * @param {Element} says
   */
  function tell(says) {
    const told = says.parentElement;
    unfold(told, false);
    told.classList.remove('long');
    requestIdleCallback(function () { told.classList.toggle('long', says.scrollHeight > says.clientHeight + 1); });
  }

  /**
   * Puts away what is said; the keyboard goes back to where it was.
   * @param {Element} told
   */
  function hush(told) {
    const had = told.contains(document.activeElement);
    const block = told.closest('section.ready');
    told.querySelector('.says').textContent = '';
    tell(told.querySelector('.says'));
    if (!had) return;
    if (!asker || !asker.isConnected) {
      asker = block;
      block.tabIndex = -1;
    }
    asker.focus({ preventScroll: true });
  }

  document.addEventListener('click', function (event) {
    const button = event.target.closest('.told > button');
    if (!button) return;
    if (button.matches('.hush')) hush(button.parentElement);
    else unfold(button.parentElement, !button.parentElement.classList.contains('whole'));
  });
  // Escape closes what is said before anything else: it lies on top. What is called late stops first.
  document.addEventListener('keydown', function (event) {
    if (event.key !== 'Escape' || document.querySelector('.calls.running')) return;
    const told = Array.from(document.querySelectorAll('.told')).filter(function (t) { return t.offsetHeight > 1; });
    if (!told.length) return;
    event.stopImmediatePropagation();
    told.forEach(hush);
  });

  // Where a browser does not tell when it is quiet, a moment later will do.
  self.requestIdleCallback = self.requestIdleCallback || function (does) { return setTimeout(does, 50); };

  /**
   * Shows an answer. The engine calls this.
   * @param {string[]} parts id and HTML in turn
   * @param {(string|number)[]} sets in turn: id of a part, how many elements it has,
   *   the how manieth of them, an attribute or '' for the text, and its value
   * @param {string} want id of the element to focus, or ''
   * @returns {boolean} whether the parts have those elements; if not, nothing is shown
   */
  self.readyhandShow = function (parts, sets, want) {
    const had = document.activeElement;
    const block = had && had.closest('section.ready');
    const within = function (id) { return document.getElementById(id).getElementsByTagName('*'); };
    for (let i = 0; i < sets.length; i += 5) {
      if (within(sets[i]).length !== sets[i + 1]) return false;
    }
    for (let i = 0; i < parts.length; i += 2) {
      const part = document.getElementById(parts[i]);
      if (part) set(part, parts[i + 1]);
      if (part && part.matches('.says')) tell(part);
    }
    for (let i = 0, of = '', elements = []; i < sets.length; i += 5) {
      if (of !== sets[i]) {
        of = sets[i];
        elements = within(of);
      }
      const element = elements[sets[i + 2]];
      if (sets[i + 3] === '') element.textContent = sets[i + 4];
      else element.setAttribute(sets[i + 3], sets[i + 4]);
    }
    refocus(had, block, want);
    if (!document.activeElement.closest('.told')) asker = document.activeElement.closest('section.ready *');
    return true;
  };

  if (!blocks.length) return;
  document.addEventListener('readyhand', replay, { once: true });
  ['click', 'change', 'keydown'].forEach(function (kind) { document.addEventListener(kind, keep); });
  blocks.forEach(function (block) {
    block.classList.add('waking'); // its controls are there from now on, so that nothing jumps later
    ['pointerdown', 'focusin'].forEach(function (kind) {
      block.addEventListener(kind, start, { once: true, passive: true });
    });
  });
  // A tune that is near already is woken before the page is first painted: the
  // engine is fetched and compiled meanwhile.
  const first = blocks[0].getBoundingClientRect();
  const near = parseInt(NEAR, 10);
  if (!self.IntersectionObserver || first.top < innerHeight + near && first.bottom > -near) {
    start();
    return;
  }
  const watch = new IntersectionObserver(function (seen) {
    if (!seen.some(function (s) { return s.isIntersecting; })) return;
    watch.disconnect();
    start();
  }, { rootMargin: NEAR });
  blocks.forEach(function (block) { watch.observe(block); });
})();
