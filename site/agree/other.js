// Reads {"texts": [...]} on the standard input with abcjs and prints, for each
// text, its notes as [onset, length, midi] in whole notes, or null where abcjs
// gave up. The folder of abcjs is named on the command line.
const abcjs = require(process.argv[2]);
const { texts } = JSON.parse(require("fs").readFileSync(0, "utf8"));
console.log = console.warn = console.error = () => {};

function notes(text) {
  const tune = abcjs.parseOnly(text)[0];
  const found = [];
  for (const track of tune.setUpAudio({ chordsOff: true }).tracks) {
    for (const e of track) {
      if (e.cmd === "note" && e.style !== "grace") found.push([e.start, e.duration, e.pitch]);
    }
  }
  return found;
}

const all = texts.map((text) => {
  try {
    return notes(text);
  } catch (e) {
    return null;
  }
});
process.stdout.write(JSON.stringify(all));
