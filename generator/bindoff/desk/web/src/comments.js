// Comments on a step or a number, kept beside the pattern: written, answered, closed, and found again
// on the pages.
import { announce, by, count, element } from './dom.js'
import { ask, client } from './server.js'

const today = () => new Date().toLocaleDateString('sv') // year-month-day

const remembered = name => {
  if (name !== undefined) try { localStorage.setItem('name', name) } catch { return name }
  try { return localStorage.getItem('name') ?? '' } catch { return '' }
}

export class Comments {
  // `chosen(comment)` is told which place is to be shown, `shown(comments)` which are open.
  constructor({ chosen, shown, fault }) {
    this.chosen = chosen
    this.shown = shown
    this.fault = fault
    this.pattern = ''
    this.list = []
    this.here = null
    this.frozen = false
    by('comment-closed').onchange = () => this.draw()
    by('comment').onsubmit = event => {
      event.preventDefault()
      this.add()
    }
    by('comment-by').value = remembered()
  }

  open(pattern) {
    this.pattern = pattern
    for (const [id, what] of [['comments-list', 'list'], ['comments-pdf', 'a4']]) {
      by(id).href = `notes/${encodeURIComponent(pattern)}/${what}`
    }
    by('comment').hidden = this.frozen
  }

  sizes(names) {
    const select = by('comment-size')
    if (select.options.length === names.length + 1) return
    select.replaceChildren(element('option', { value: '' }, 'all sizes'), ...names.map(each => element('option', { value: each }, each)))
  }

  // Where a new comment would stand: a line of a file, in words.
  at(file, line, title) {
    this.here = { file, line }
    by('comment-at').textContent = title || `Line ${line} of ${file}`
  }

  async load() {
    if (this.pattern) this.take(await ask('comments', { client, pattern: this.pattern }))
  }

  // What the server says of the disk; comments that came from elsewhere are loaded.
  async since(digest) {
    if (this.digest !== undefined && digest !== this.digest && !this.asking) await this.load()
  }

  async do(wishes) {
    this.asking = true
    try {
      return this.take(await ask('comments', { client, pattern: this.pattern, ...wishes }))
    } finally {
      this.asking = false
    }
  }

  take({ comments, digest, fault }) {
    if (fault) {
      if (fault !== this.told) this.fault(fault)
      this.told = fault
      return false
    }
    if (!comments) return false
    this.told = ''
    this.list = comments
    this.digest = digest
    this.draw()
    return true
  }

  async add() {
    const text = by('comment-text')
    if (!this.here || !text.value.trim()) return text.focus()
    remembered(by('comment-by').value)
    const { file, line } = this.here
    const made = await this.do({
      do: 'add', file, line, size: by('comment-size').value,
      text: text.value, by: by('comment-by').value, date: today(),
    })
    if (!made) return
    text.value = ''
    by('comment-size').value = ''
    announce('The comment is kept.')
  }

  draw() {
    const open = this.list.filter(each => !each.closed)
    const seen = by('comment-closed').checked ? this.list : open
    const writing = this.writing()
    by('comments').replaceChildren(...seen.map(each => this.one(each)))
    if (writing) this.goOn(writing)
    if (!seen.length) by('comments').append(element('p', { class: 'sound' }, this.list.length ? 'All comments are closed.' : 'There are no comments.'))
    by('comment-count').textContent = open.length ? `– ${count(open.length, 'open comment')}` : ''
    by('comment-closed').closest('label').hidden = open.length === this.list.length
    by('comment-ways').hidden = !this.list.length
    this.shown(open)
  }

  one(comment) {
    const signed = ({ by: who, date }) => [who, date].filter(Boolean).join(', ')
    const state = comment.gone ? 'its place is gone' : comment.same ? '' : 'its place has changed'
    const answer = element('input', { autocomplete: 'off', 'data-answer': comment.id, placeholder: 'Your answer', 'aria-label': `Answer to comment ${comment.id}` })
    const form = element('form', { class: 'answer', onsubmit: async event => {
      event.preventDefault()
      const text = answer.value
      answer.value = ''
      if (text.trim()) await this.do({ do: 'answer', id: comment.id, text, by: by('comment-by').value, date: today() })
    } }, answer, element('button', { type: 'submit' }, 'Answer'),
    element('button', { type: 'button', onclick: () => this.do({ do: comment.closed ? 'open' : 'close', id: comment.id }) }, comment.closed ? 'Open again' : 'Close'))
    return element('div', { class: comment.closed ? 'comment closed' : 'comment' },
      element('button', { type: 'button', class: 'finding', disabled: comment.gone || !comment.file, onclick: () => this.chosen(comment) },
        element('span', { class: 'number' }, comment.id), element('span', { class: 'said' }, comment.at), comment.closed ? element('span', { class: 'state' }, 'closed') : null),
      element('p', { class: 'words' }, comment.text),
      element('p', { class: 'where' }, [signed(comment), state].filter(Boolean).join(' · ')),
      ...comment.answers.map(each => element('div', { class: 'reply' },
        element('p', { class: 'words' }, each.text), element('p', { class: 'where' }, signed(each)))),
      this.frozen ? null : form)
  }

  // The answer that is being written while comments are renewed.
  writing() {
    const { activeElement: field } = document
    return field?.dataset?.answer ? { id: field.dataset.answer, value: field.value } : null
  }

  goOn({ id, value }) {
    const field = by('comments').querySelector(`[data-answer="${id}"]`)
    if (!field) return
    field.value = value
    field.focus()
  }
}
