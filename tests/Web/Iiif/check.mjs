// Reads {"manifests": […], "images": [{"info", "requests": […]}]} as JSON from standard input; answers what another's strict reader makes of each.
import { normalize, serialize, serializeConfigPresentation3, Traverse } from '@iiif/parser'
import { getImageServiceLevel, imageServiceSupportsRequest, isImageService, parseImageServiceRequest } from '@iiif/parser/image-3'
import { presentation3StrictUpgrade } from '@iiif/parser/strict'

const manifest = sent => {
  const state = { warnings: [] }
  const upgraded = presentation3StrictUpgrade(structuredClone(sent), state)
  const seen = { canvases: 0, annotations: 0 }
  new Traverse({ canvas: [() => { seen.canvases++ }], annotation: [() => { seen.annotations++ }] }).traverseManifest(structuredClone(sent))
  const read = normalize(structuredClone(sent))
  const again = serialize({ mapping: read.mapping, entities: read.entities, requests: {} }, read.resource, serializeConfigPresentation3)
  return { warnings: state.warnings, ...seen, upgraded, again }
}

const image = ({ info, requests }) => ({
  isService: isImageService(info),
  level: getImageServiceLevel(info),
  requests: requests.map(address => {
    const request = parseImageServiceRequest(address, new URL(info.id).pathname)
    const [supported, reason] = imageServiceSupportsRequest(info, request)
    return { address, supported, reason: reason ?? null }
  })
})

let sent = ''
for await (const part of process.stdin) sent += part
const { manifests = [], images = [] } = JSON.parse(sent)
process.stdout.write(JSON.stringify({ manifests: manifests.map(manifest), images: images.map(image) }))
