// Every request of the page. The server answers JSON; a fault of its own comes as `fault`.

export const client = crypto.randomUUID()

export async function ask(name, body = {}) {
  const answer = await fetch(name, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(body),
  })
  let data = {}
  try {
    data = await answer.json()
  } catch {
    data = { fault: await answer.text().catch(() => 'the desk gave no answer') }
  }
  return { status: answer.status, ...data }
}

const policy = globalThis.trustedTypes?.createPolicy('desk', { createHTML: text => text })
const parser = new DOMParser()

// Text of a page that was copied somewhere, to be looked at: nothing of it is shown or runs.
export function readPage(text) {
  return parser.parseFromString(policy ? policy.createHTML(text) : text, 'text/html')
}

// A picture as an element. It is read as an XML document, in which no script runs, and only then taken
// into the page, its elements without what stands between them.
function taken(text) {
  const read = parser.parseFromString(policy ? policy.createHTML(text) : text, 'image/svg+xml')
  const svg = document.adoptNode(read.documentElement)
  svg.replaceChildren(...svg.children)
  // The picture is one image to whoever hears it: its links are for the mouse, the text has its own.
  for (const link of svg.querySelectorAll('a')) {
    const place = document.createElementNS(svg.namespaceURI, 'g')
    place.setAttribute('data-href', link.getAttribute('href'))
    place.append(...link.childNodes)
    link.replaceWith(place)
  }
  return svg
}

// The picture of a page, or null if the server no longer has it.
export async function picture(digest) {
  const answer = await fetch(`page/${digest}`)
  return answer.ok ? taken(await answer.text()) : null
}

// Put what is new into a picture, in the place of what it had there; says whether that was possible.
export function patched(svg, { whole, start, end, svg: lines }) {
  if (svg.childElementCount !== whole) return false
  const made = taken(`<svg xmlns="${svg.namespaceURI}" xml:space="preserve">${lines}</svg>`)
  const old = [...svg.children].slice(start, end)
  const after = svg.children[end] ?? null
  for (const each of old) each.remove()
  for (const each of [...made.children]) svg.insertBefore(each, after)
  return true
}
