// From a line of the text edition to its source: by a click, or by a walk from line to line.
import { by } from './dom.js'

export class Lines {
  // `chosen(file, [line, column], take)` is told of a line; `take` asks to go to its source.
  constructor({ chosen }) {
    this.chosen = chosen
    this.box = by('text')
    this.scroller = this.box.closest('.scroll')
    this.box.addEventListener('click', event => this.click(event))
    this.scroller.addEventListener('keydown', event => this.key(event))
  }

  click(event) {
    const line = event.target.closest('[data-line]')
    if (!line || String(getSelection())) return // words are being selected
    this.choose(line, event.ctrlKey || event.metaKey)
  }

  choose(line, take) {
    this.box.querySelector('.marked')?.classList.remove('marked')
    line.classList.add('marked')
    this.chosen(line.dataset.file, [Number(line.dataset.line), Number(line.dataset.column)], take)
  }

  key(event) {
    const here = event.target.closest('#text [data-line]')
    const lines = [...this.box.querySelectorAll('[data-line]')]
    if (!here) {
      if (event.key !== 'Enter' || event.target !== this.scroller || !lines.length) return
      event.preventDefault()
      const { top } = this.scroller.getBoundingClientRect()
      return this.walk(lines.find(each => each.getBoundingClientRect().top >= top) ?? lines.at(-1))
    }
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
    if (step) {
      event.preventDefault()
      this.walk(lines[lines.indexOf(here) + step] ?? here)
    } else if (event.key === 'Enter') {
      event.preventDefault()
      this.choose(here, true)
    } else if (event.key === 'Escape') this.scroller.focus()
  }

  walk(line) {
    line.tabIndex = -1
    line.focus()
    this.choose(line, false)
  }
}
