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

// What a screen reader is told are lines of a log: it reads each that is added, in its turn, so that
// none takes the place of another which is not heard yet.
const gathered = 100 // ms in which sentences that follow at once are gathered
const settled = 400 // ms without another sentence of its kind, of which only the last is told
const kept = 10_000 // ms that a line stays for whoever looks for it
const waiting = new Map()

// Says a sentence to a screen reader. Of those `about` the same thing, which follow one another while
// a key is held, only the last is said.
export function announce(sentence, about = '') {
  if (!sentence) return
  const key = about || sentence
  clearTimeout(waiting.get(key))
  waiting.set(key, setTimeout(() => {
    waiting.delete(key)
    const line = element('p', {}, sentence)
    by('announcer').append(line)
    setTimeout(() => line.remove(), kept)
  }, about ? settled : gathered))
}

const seen = 6000 // ms that a sentence stays in sight
let hiding = 0
// Says a sentence to everybody: one that nothing else on the page shows.
export function tell(sentence) {
  announce(sentence)
  by('said').textContent = sentence
  by('said').hidden = false
  clearTimeout(hiding)
  hiding = setTimeout(() => { by('said').hidden = true }, seen)
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

// Words with what stands between backticks as code.
export const code = text => text.split('`').map((part, at) => at % 2 ? element('code', {}, part) : part)

export const count = (number, word, several = `${word}s`) => `${number} ${number === 1 ? word : several}`

const hidden = 100 // ms after which a page that nobody looks at, and so is not painted, counts as painted

// What has been changed is painted, before anything else is asked for.
export const painted = () => new Promise(done => {
  requestAnimationFrame(() => setTimeout(done))
  setTimeout(done, hidden)
})
