// What has changed since another version, or would change at another gauge; and which pages differ.
import { by, count, element } from './dom.js'

export class Changes {
  // `chosen()` is told when something else is to be compared with.
  constructor({ chosen, beside }) {
    by('against').onchange = () => {
      if (by('against').value) by('change-count').textContent = '– being compared'
      chosen()
    }
    by('beside').onchange = () => beside(by('beside').checked)
    this.pattern = ''
  }

  // The other patterns of the folder, each with its title, may be versions of this one.
  offer(pattern, patterns) {
    this.pattern = pattern
    const others = patterns.filter(([each]) => each !== pattern)
    by('against').replaceChildren(
      element('option', { value: '' }, 'nothing'),
      element('option', { value: 'saved' }, 'what is saved'),
      element('option', { value: 'opened' }, 'what was opened'),
      ...others.map(([each, title]) => element('option', { value: `pattern ${each}` }, title)))
  }

  // What to ask the server to compare with: a pattern of the folder with texts over it, or nothing.
  wanted(trying, texts, opened) {
    const { pattern } = this
    const { value } = by('against')
    if (trying) return { pattern, texts }
    if (value === 'saved') return { pattern, texts: {} }
    if (value === 'opened') return { pattern, texts: opened }
    if (value.startsWith('pattern ')) return { pattern: value.slice('pattern '.length), texts: {} }
    return null
  }

  clear(trying) {
    this.frame(trying, false)
    by('changed').replaceChildren()
    by('change-count').textContent = ''
  }

  frame(trying, shown) {
    by('changes-title').firstChild.textContent = trying ? 'What would change ' : 'What has changed '
    by('against').closest('label').hidden = trying
    by('beside').closest('label').hidden = !shown
  }

  show({ changes, earlier, findings }, pages, trying) {
    this.frame(trying, Boolean(changes))
    if (!changes) {
      const why = findings?.[0]?.message ?? ''
      by('changed').replaceChildren(element('p', {}, `That version can’t be built${why ? `: ${why}` : ''}.`))
      by('change-count').textContent = ''
      return
    }
    const lines = changes.filter(each => each.title).flatMap(each => each.lines)
    by('change-count').textContent = lines.length ? `– ${count(lines.length, 'line')}` : ''
    const other = pages.flatMap(({ digest }, index) => digest === earlier.pages[index]?.digest ? [] : [index + 1])
    const look = !other.length && pages.length === earlier.pages.length ? 'Every page looks the same.'
      : `${other.length === 1 ? 'Page' : 'Pages'} ${ranges(other)} of ${pages.length} ${other.length === 1 ? 'looks' : 'look'} different${pages.length === earlier.pages.length ? '' : `; there were ${earlier.pages.length}`}.`
    by('changed').replaceChildren(
      element('p', { class: 'help' }, look),
      ...changes.map(({ title, lines }) => element('section', { class: 'told' },
        title ? element('h3', {}, title) : null,
        title ? element('ul', {}, ...lines.map(line => element('li', {}, line))) : element('p', {}, lines.join(' ')))))
  }
}

// 1, 2, 3, 5 as "1 to 3 and 5"
function ranges(numbers) {
  const parts = []
  for (const number of numbers) {
    const last = parts.at(-1)
    if (last && last[1] === number - 1) last[1] = number
    else parts.push([number, number])
  }
  const said = parts.flatMap(([from, to]) => to > from + 1 ? [`${from} to ${to}`] : [...new Set([from, to])])
  return said.length > 1 ? `${said.slice(0, -1).join(', ')} and ${said.at(-1)}` : `${said}`
}
