// Reads a list of texts as JSON from standard input; answers for each whether it is a date of level 0 or 1 and its first and last year.
import edtf, { parse } from 'edtf'

const year = ms => (Number.isFinite(ms) ? new Date(ms).getUTCFullYear() : null)

const read = text => {
  try {
    parse(text, { level: 1 })
    const date = edtf(text)
    return { read: true, from: date.min === null ? null : year(date.min), to: date.max === null ? null : year(date.max) }
  } catch {
    return { read: false }
  }
}

let sent = ''
for await (const part of process.stdin) sent += part
process.stdout.write(JSON.stringify(JSON.parse(sent).map(read)))
