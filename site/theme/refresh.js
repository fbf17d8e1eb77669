/*
 * Shows a lesson again when its file was changed. Only readyhand serve adds this
 * to a page. It listens while the page can be seen, and asks what it missed when
 * it is seen again.
 */
(function () {
  'use strict';

  const shown = document.currentScript.dataset.made;
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
    changes.addEventListener('trouble', function (event) { tell(event.data); });
  }

  /**
   * Shows what stands in the way of the page, and takes it away when it is gone.
   * @param {string} remarks one a line; none if all is well
   */
  function tell(remarks) {
    const old = document.getElementById('trouble');
    if (old) old.remove();
    if (!remarks) return;
    const box = document.createElement('pre');
    box.id = 'trouble';
    box.className = 'trouble';
    box.setAttribute('role', 'status');
    box.textContent = remarks;
    document.body.prepend(box);
  }

  document.addEventListener('visibilitychange', follow);
  follow();
})();
