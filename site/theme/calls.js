/*
 * Late calls: the engine has written the list, with the time of each; this is the
 * clock that says them. It needs no engine to run.
 */
(function () {
  'use strict';

  /** @type {?{box: Element, timer: number}} the list that is being called */
  let running = null;

  /**
   * @param {Element} box
   * @param {string} selector what in it
   * @param {string} text
   */
  function show(box, selector, text) { box.querySelector(selector).textContent = text; }

  /**
   * Says a turn: its word, large, and its note.
   * @param {Element} box
   * @param {Element} item
   */
  function say(box, item) {
    const call = box.querySelector('.call');
    call.replaceChildren.apply(call, Array.from(item.cloneNode(true).childNodes));
  }

  function stop() {
    if (!running) return;
    const box = running.box;
    clearTimeout(running.timer);
    running = null;
    show(box, '.call', '');
    show(box, '.turn', '');
    show(box, '.go', 'Start');
    box.classList.remove('running'); // the list is to be read again
    box.querySelectorAll('.now').forEach(function (item) { item.removeAttribute('class'); });
  }

  /**
   * What is to be done when, in milliseconds from the start, in order.
   * @param {Element} box
   * @param {Element} list its turns
   * @returns {{at: number, does: function(): void}[]}
   */
  function plan(box, list) {
    const beat = Number(list.dataset.beat);
    const bar = beat * Number(list.dataset.beats);
    const turn = Number(list.dataset.turn);
    const items = Array.from(list.children);
    const steps = [];
    for (let n = 0; n * beat < bar; n++) {
      steps.push({ at: n * beat, does: function () { show(box, '.turn', 'Ready: ' + (n + 1)); } });
    }
    items.forEach(function (item, n) {
      steps.push({ at: Number(item.dataset.note) + beat, does: function () { item.removeAttribute('class'); show(box, '.call', ''); } });
    });
    items.forEach(function (item, n) {
      const begins = bar + n * turn;
      steps.push({ at: begins, does: function () { show(box, '.turn', 'Turn ' + (n + 1) + ' of ' + items.length); } });
      steps.push({ at: begins + turn - bar, does: function () { show(box, '.turn', 'Rest the hand'); } });
      steps.push({ at: Number(item.dataset.at), does: function () { item.className = 'now'; say(box, item); } });
    });
    steps.push({ at: items.length * turn, does: stop });
    return steps.sort(function (a, b) { return a.at - b.at; });
  }

  /** @param {Element} box */
  function start(box) {
    const list = box.querySelector('ol.turns');
    if (!list) return;
    const steps = plan(box, list);
    const began = performance.now();
    const mine = { box: box, timer: 0 };
    running = mine;
    show(box, '.go', 'Stop');
    box.classList.add('running');
    (function tick() {
      const now = performance.now() - began;
      if (!list.isConnected) stop(); // another list is there now
      while (running === mine && steps.length && steps[0].at <= now) steps.shift().does();
      if (running === mine) mine.timer = setTimeout(tick, Math.max(0, steps[0].at - (performance.now() - began)));
    })();
  }

  document.addEventListener('click', function (event) {
    const button = event.target.closest('.calls .go');
    if (!button) return;
    const box = button.closest('.calls');
    const again = running !== null && running.box === box;
    stop();
    if (!again) start(box);
  });
  document.addEventListener('keydown', function (event) {
    if (event.key === 'Escape') stop();
  });
  document.querySelectorAll('section.ready').forEach(function (block) { block.classList.add('clock'); });
})();
