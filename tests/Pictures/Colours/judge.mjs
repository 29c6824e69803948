// Reads {"from", "to", "colours": [[r, g, b], …]} as JSON from standard input, 0 to 1 in a space that culori names (rgb, p3, a98);
// answers the same colours in the other, not clipped.
import { converter } from 'culori'

let text = ''
for await (const piece of process.stdin) text += piece
const { from, to, colours } = JSON.parse(text)
const convert = converter(to)
console.log(JSON.stringify(colours.map(([r, g, b]) => convert({ mode: from, r, g, b })).map(({ r, g, b }) => [r, g, b])))
