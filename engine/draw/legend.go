package draw

// legend tells how to read the picture; it is the same for every block.
const legend = `<details class="key"><summary>How to read the picture</summary><ul>` +
	`<li><svg viewBox="0 0 30 20" width="30" height="20" fill="none" stroke="currentColor" aria-hidden="true"><path class="tab" d="M4 2h10a8 8 0 0 1 0 16h-10z"></path></svg> a finger set on its string before the first note; it does not sound</li>` +
	`<li><svg viewBox="0 0 30 20" width="30" height="20" fill="none" stroke="currentColor" aria-hidden="true"><path class="tab outer" d="M4 1h10a9 9 0 0 1 0 18h-10z"></path><path class="tab" d="M4 4h10a6 6 0 0 1 0 12h-10z"></path></svg> a finger that waits there for an ornament alone</li>` +
	`<li><svg viewBox="0 0 30 20" width="30" height="20" fill="none" stroke="currentColor" aria-hidden="true"><g class="bead"><line class="tail" x1="10" y1="10" x2="28" y2="10" stroke-width="4"></line><circle cx="10" cy="10" r="9"></circle></g></svg> a written note, with its finger; its tail is as long as the note</li>` +
	`<li><svg viewBox="0 0 30 20" width="30" height="20" fill="none" stroke="currentColor" aria-hidden="true"><g class="ornament on"><path class="gem" d="M10 2l8 8l-8 8l-8 -8z"></path></g></svg> an ornament that is played</li>` +
	`<li><svg viewBox="0 0 30 20" width="30" height="20" fill="none" stroke="currentColor" aria-hidden="true"><g class="ornament off"><path class="gem" d="M10 2l8 8l-8 8l-8 -8z"></path></g></svg> one that is left out; a very small one says that something fits there</li>` +
	`<li><svg viewBox="0 0 30 20" width="30" height="20" fill="none" stroke="currentColor" aria-hidden="true"><g class="ornament on"><path class="gem" d="M3 3h14v14h-14z"></path></g></svg> one for which the hand must leave its strings</li>` +
	`<li>Fingers: 1 is the thumb, 4 the ring finger. The shaded field is one placing of the hand.</li></ul></details>`
