/*
 * Shows a lesson again when its file was changed. Only readyhand serve adds this
 * to a page. It listens while the page can be seen, and asks what it missed when
 * it is seen again.
 */
(function () {
  'use strict';

  const shown = document.currentScript.dataset.made;
  const said = {warnings: '', trouble: ''};
  let changes = null;

  function follow() {
    if (document.hidden) {
      if (changes) changes.close();
      changes = null;
      return;
    }
    if (changes) return;
    changes = new EventSource('/-/changes');
    changes.onmessage = function (event) {
      if (event.data !== shown) location.reload();
    };
    for (const kind of Object.keys(said)) {
      changes.addEventListener(kind, function (event) {
        said[kind] = event.data;
        tell();
      });
    }
  }

  /**
   * Shows at the top of the window what stands in the way of the page, or else,
   * more quietly, what there is to say of it. All well takes it away.
   */
  function tell() {
    const old = document.getElementById('trouble');
    const remarks = said.trouble || said.warnings;
    if (!remarks) {
      if (old) old.remove();
      return;
    }
    const box = old || document.createElement('pre');
    box.id = 'trouble';
    box.className = said.trouble ? 'trouble' : 'trouble quiet';
    box.setAttribute('role', 'status');
    box.tabIndex = 0; // it may be higher than it shows, and is scrolled by key
    if (!old) document.body.prepend(box);
    if (box.textContent !== remarks) box.textContent = remarks;
  }

  document.addEventListener('visibilitychange', follow);
  follow();
})();
