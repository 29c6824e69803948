// Reads a list of components (CycloneDX 1.6, JSON) from standard input; answers what the published schema finds wrong with it.
import { readFileSync } from 'node:fs'
import Ajv from 'ajv'
import addFormats from 'ajv-formats'

const schema = name => JSON.parse(readFileSync(new URL(`node_modules/@cyclonedx/cyclonedx-library/res/schema/${name}.SNAPSHOT.schema.json`, import.meta.url)))
const ajv = new Ajv({ strict: false, allErrors: true, formats: { 'iri-reference': true, 'idn-email': true } })
addFormats(ajv)
for (const name of ['spdx', 'jsf-0.82', 'cryptography-defs']) {
  // The schema names its parts by the file.
  ajv.addSchema({ ...schema(name), $id: `http://cyclonedx.org/schema/${name}.SNAPSHOT.schema.json` })
}
let sent = ''
for await (const part of process.stdin) sent += part
const valid = ajv.compile(schema('bom-1.6'))
process.stdout.write(JSON.stringify(valid(JSON.parse(sent)) ? [] : valid.errors.map(e => `${e.instancePath}: ${e.message}`)))
