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

// The picture of a page as an element, or null if the server no longer has it. It is read as an
// XML document, in which no script runs, and only then taken into the page.
export async function picture(digest) {
  const answer = await fetch(`page/${digest}`)
  if (!answer.ok) return null
  const text = await answer.text()
  const read = parser.parseFromString(policy ? policy.createHTML(text) : text, 'image/svg+xml')
  const svg = document.adoptNode(read.documentElement)
  // The picture is one image to whoever hears it: its links are for the mouse, the text has its own.
  for (const link of svg.querySelectorAll('a')) {
    const place = document.createElementNS(svg.namespaceURI, 'g')
    place.setAttribute('data-href', link.getAttribute('href'))
    place.append(...link.childNodes)
    link.replaceWith(place)
  }
  return svg
}
