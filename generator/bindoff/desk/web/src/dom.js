// Small helpers for elements. Texts are always set as text.

export const by = id => document.getElementById(id)

export function element(name, attributes = {}, ...children) {
  const made = document.createElement(name)
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith('on')) made.addEventListener(key.slice(2), value)
    else if (value === true) made.setAttribute(key, '')
    else if (value !== false && value != null) made.setAttribute(key, value)
  }
  made.append(...children.filter(each => each != null))
  return made
}

let last = 0
// Says one sentence to a screen reader.
export function announce(sentence) {
  const place = by('announcer')
  const turn = ++last
  place.textContent = ''
  setTimeout(() => { if (turn === last) place.textContent = sentence }, 50)
}

export function dialog(title, ...children) {
  const box = by('dialog')
  box.replaceChildren(
    element('h2', { id: 'dialog-title' }, title),
    ...children,
    element('form', { method: 'dialog' }, element('button', {}, 'Close')),
  )
  if (!box.open) box.showModal()
  return box
}

export const count = (number, word, several = `${word}s`) => `${number} ${number === 1 ? word : several}`
