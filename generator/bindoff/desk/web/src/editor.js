// The source column: a tab for each file, one editor, and the places that findings and pages name.
import { autocompletion, completionKeymap } from '@codemirror/autocomplete'
import { defaultKeymap, history, historyKeymap, isolateHistory, redo, undo } from '@codemirror/commands'
import { yaml } from '@codemirror/lang-yaml'
import { HighlightStyle, bracketMatching, indentOnInput, indentUnit, syntaxHighlighting } from '@codemirror/language'
import { lintGutter, setDiagnostics } from '@codemirror/lint'
import { highlightSelectionMatches, search, searchKeymap } from '@codemirror/search'
import { Compartment, EditorState, StateEffect, StateField } from '@codemirror/state'
import { Decoration, EditorView, ViewPlugin, drawSelection, highlightActiveLine, highlightSpecialChars, hoverTooltip, keymap, lineNumbers, showTooltip } from '@codemirror/view'
import { tags } from '@lezer/highlight'
import { announce, by, element, tell } from './dom.js'

const nonce = document.querySelector('meta[name=style-nonce]').content
const readOnly = new Compartment()
const alone = isolateHistory.of('full') // what follows typing within half a second would join it

const colours = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], class: 'code-key' },
  { tag: [tags.string, tags.content], class: 'code-text' },
  { tag: tags.comment, class: 'code-remark' },
  { tag: [tags.separator, tags.squareBracket, tags.brace, tags.punctuation], class: 'code-mark' },
])

// ---------------------------------------------------------------- the marked place

const mark = StateEffect.define()
const marked = StateField.define({
  create: () => Decoration.none,
  update(value, change) {
    value = value.map(change.changes)
    for (const effect of change.effects) if (effect.is(mark)) value = effect.value
    return value
  },
  provide: field => EditorView.decorations.from(field),
})
const markedLine = Decoration.line({ class: 'marked' })

// A line that is wrapped goes on under its own text, so that the outline of the file stays seen.
const deepest = 24
const hanging = ViewPlugin.fromClass(class {
  constructor(view) { this.decorations = this.lines(view) }
  update(change) {
    if (change.docChanged || change.viewportChanged) this.decorations = this.lines(change.view)
  }
  lines({ state, visibleRanges }) {
    const found = []
    for (const { from, to } of visibleRanges) {
      for (let at = from; at <= to;) {
        const line = state.doc.lineAt(at)
        const deep = Math.min(line.text.match(/^ *(?:- +)*/)[0].length, deepest)
        found.push(Decoration.line({ class: `deep-${deep}` }).range(line.from))
        at = line.to + 1
      }
    }
    return Decoration.set(found, true)
  }
}, { decorations: plugin => plugin.decorations })

// What was asked by key about the word at the cursor; it goes with the next move.
const answer = StateEffect.define()
const asked = StateField.define({
  create: () => null,
  update(value, change) {
    for (const effect of change.effects) if (effect.is(answer)) return effect.value
    return change.docChanged || change.selection ? null : value
  },
  provide: field => showTooltip.from(field),
})

function unask(view) {
  if (!view.state.field(asked)) return false
  view.dispatch({ effects: answer.of(null) })
  return true
}

// Our columns count characters as people do; the editor counts UTF-16 units.
function offset(doc, [line, column]) {
  const at = doc.line(Math.min(Math.max(line, 1), doc.lines))
  const units = [...at.text].slice(0, Math.max(column - 1, 0)).join('').length
  return Math.min(at.from + units, at.to)
}

function place(doc, head) {
  const line = doc.lineAt(head)
  return [line.number, [...doc.sliceString(line.from, head)].length + 1]
}

export class Editor {
  // `changed(name)` is told of every edit, `moved()` of the cursor, `shown(name)` of another file;
  // `complete` gives completions, `about(file, text, [line, column])` what stands at a place;
  // `pointed(file, at, take)` may go to a place in its own way.
  constructor({ changed, moved, shown, pointed, complete, about }) {
    this.about = about
    this.shown = shown
    this.pointed = pointed
    this.panel = 'editor'
    this.states = new Map()
    this.saved = new Map() // name -> {text, digest}
    this.current = ''
    this.changed = changed
    this.extensions = [
      EditorView.cspNonce.of(nonce),
      lineNumbers(),
      highlightSpecialChars(),
      history(),
      drawSelection(),
      indentOnInput(),
      indentUnit.of('  '),
      bracketMatching(),
      highlightActiveLine(),
      highlightSelectionMatches(),
      search({ top: true }),
      lintGutter(),
      syntaxHighlighting(colours),
      autocompletion({ override: [complete], icons: false }),
      hoverTooltip((view, at) => this.told(view, at), { hoverTime: 350 }),
      asked,
      keymap.of([{ key: 'Mod-i', run: view => this.askHere(view) }, { key: 'Escape', run: unask }, ...completionKeymap, ...searchKeymap, ...historyKeymap, ...defaultKeymap]),
      marked,
      hanging,
      readOnly.of(EditorState.readOnly.of(false)),
      EditorView.lineWrapping,
      EditorView.updateListener.of(update => {
        this.states.set(this.current, update.state)
        if (update.docChanged) changed(this.current)
        if (update.selectionSet || update.docChanged) moved()
      }),
    ]
    this.view = new EditorView({
      parent: by('editor'),
      state: EditorState.create({ extensions: [EditorView.cspNonce.of(nonce)] }),
    })
    by('files').addEventListener('keydown', event => this.tabKey(event))
  }

  // Show these files, and the first of them; `drafts` are texts that are not saved, of files too that
  // were begun here.
  open(files, drafts = {}) {
    this.states.clear()
    this.saved.clear()
    for (const { name, text, digest } of files) {
      this.saved.set(name, { text, digest })
      this.states.set(name, this.state(name, drafts[name] ?? text))
    }
    for (const [name, text] of Object.entries(drafts)) if (!this.saved.has(name)) this.begin(name, text)
    this.current = ''
    if (files.length) this.show(files[0].name)
  }

  state(name, doc) {
    const language = name.endsWith('.yaml') ? [yaml()] : []
    const label = EditorView.contentAttributes.of({
      'aria-label': `Text of ${name}`, tabindex: '0', spellcheck: 'false', autocapitalize: 'off',
    })
    const kind = EditorView.editorAttributes.of({ class: name.endsWith('.grid') ? 'is-grid' : '' })
    return EditorState.create({ doc, extensions: [...this.extensions, ...language, label, kind] })
  }

  show(name) {
    if (!this.states.has(name) || name === this.current) return
    this.current = name
    this.view.setState(this.states.get(name))
    this.shown(name)
    this.drawTabs()
  }

  drawTabs() {
    const tabs = [...this.states.keys()].map(name => {
      const open = name === this.current
      const label = this.unsaved(name) ? `${name} (not saved)` : name
      return element('button', {
        type: 'button', role: 'tab', id: `tab-${name}`, 'aria-selected': String(open),
        'aria-controls': this.panel, tabindex: open ? '0' : '-1', 'aria-label': label,
        'data-name': name, onclick: () => { this.show(name); if (this.panel === 'editor') this.view.focus() },
      }, name, this.unsaved(name) ? ' •' : '')
    })
    const held = by('files').contains(document.activeElement)
    by('files').replaceChildren(...tabs)
    by('editor').setAttribute('aria-labelledby', `tab-${this.current}`)
    if (held) by('files').querySelector('[aria-selected=true]')?.focus()
  }

  tabKey(event) {
    const names = [...this.states.keys()]
    const at = names.indexOf(this.current)
    const to = { ArrowRight: at + 1, ArrowLeft: at - 1, Home: 0, End: names.length - 1 }[event.key]
    if (to === undefined) return
    event.preventDefault()
    this.show(names[(to + names.length) % names.length])
  }

  // ------------------------------------------------------------ texts

  text(name) {
    return this.states.get(name).doc.toString()
  }

  unsaved(name) {
    const state = this.states.get(name)
    return state && state.doc.toString() !== this.saved.get(name).text
  }

  get allUnsaved() {
    return [...this.states.keys()].filter(name => this.unsaved(name))
  }

  get unsavedTexts() {
    return Object.fromEntries(this.allUnsaved.map(name => [name, this.text(name)]))
  }

  isSaved(name, text, digest) {
    this.saved.set(name, { text, digest })
    this.drawTabs()
  }

  // A file that is not on the disk yet.
  begin(name, text) {
    this.saved.set(name, { text: '', digest: '' })
    this.states.set(name, this.state(name, text))
    this.drawTabs()
  }

  // A file that is no longer in the folder, and not wanted here either.
  forget(name) {
    this.saved.delete(name)
    this.states.delete(name)
    if (name === this.current) this.show([...this.states.keys()][0])
    this.drawTabs()
  }

  // Another text for a file, as an edit that can be undone by itself.
  replace(name, text) {
    if (!this.states.has(name)) {
      this.states.set(name, this.state(name, text))
      this.drawTabs()
      return
    }
    this.dispatch(name, state => ({ changes: { from: 0, to: state.doc.length, insert: text }, annotations: alone }))
  }

  // Undo or redo what was last done in the file that is shown.
  step(way) {
    const ways = { undo: [undo, 'Undone.'], redo: [redo, 'Done again.'] }
    const [step, words] = ways[way]
    if (step(this.view)) announce(words)
    else tell('There is no such step.')
  }

  dispatch(name, make) {
    if (name === this.current) {
      this.view.dispatch(make(this.view.state))
      return
    }
    const state = this.states.get(name)
    if (state) this.states.set(name, state.update(make(state)).state)
  }

  // The texts as they are now, to see later whether they still are.
  get texts() {
    return new Map([...this.states].map(([name, { doc }]) => [name, doc]))
  }

  // ------------------------------------------------------------ what stands at a place

  async told(view, at) {
    const { doc } = view.state
    const found = await this.about(this.current, doc.toString(), place(doc, at)).catch(() => ({}))
    if (!found.title || view.state.doc !== doc) return null
    const create = () => ({ dom: element('div', { class: 'about' },
      element('p', { class: 'title' }, found.title), ...found.lines.map(line => element('p', {}, line))) })
    return { pos: offset(doc, found.from), end: offset(doc, found.to), above: true, create, said: [found.title, ...found.lines].join('. ') }
  }

  askHere(view) {
    this.told(view, view.state.selection.main.head).then(found => {
      view.dispatch({ effects: answer.of(found) })
      if (found) announce(found.said)
      else tell('Nothing is known of this place.')
    })
    return true
  }

  // Changes that the server gave for `texts`, each file's as one that can be undone by itself. Says
  // whether they were made: not where something was written meanwhile.
  edit(edits, texts) {
    const names = [...new Set(edits.map(each => each.file))]
    if (names.some(name => !this.states.has(name) || !this.states.get(name).doc.eq(texts.get(name)))) return false
    for (const name of names) {
      this.dispatch(name, ({ doc }) => ({
        changes: edits.filter(each => each.file === name).map(each => ({
          from: offset(doc, each.from), to: offset(doc, each.to), insert: each.insert,
        })),
        annotations: alone,
      }))
      if (name !== this.current) this.changed(name)
    }
    return true
  }

  // ------------------------------------------------------------ places

  get cursor() {
    return { file: this.current, at: place(this.view.state.doc, this.view.state.selection.main.head) }
  }

  // Mark the lines of a place, bring it into sight; with `take`, put the cursor there too.
  point(file, from, to, take = false) {
    if (!this.states.has(file)) return
    this.show(file)
    if (this.pointed(file, from, take)) return
    const { doc } = this.view.state
    const start = offset(doc, from)
    const end = Math.max(offset(doc, to), start)
    const last = doc.lineAt(end > start && to[1] <= 1 ? end - 1 : end).number
    const lines = []
    for (let number = doc.lineAt(start).number; number <= last; number++) {
      lines.push(markedLine.range(doc.line(number).from))
    }
    const seen = this.view.coordsAtPos(start)
    const frame = this.view.scrollDOM.getBoundingClientRect()
    const inSight = seen && seen.top >= frame.top && seen.bottom <= frame.bottom
    const effects = [mark.of(Decoration.set(lines))]
    if (!inSight) effects.push(EditorView.scrollIntoView(start, { y: 'center' }))
    this.view.dispatch(take ? { effects, selection: { anchor: start } } : { effects })
    if (take) this.view.focus()
  }

  unmark() {
    this.view.dispatch({ effects: mark.of(Decoration.none) })
  }

  // Findings in their places; those without one in a file stand only in the list.
  underline(findings) {
    for (const name of this.states.keys()) {
      this.dispatch(name, state => setDiagnostics(state, findings
        .filter(each => each.file === name && each.line)
        .map(each => {
          const from = offset(state.doc, [each.line, each.column])
          const to = Math.max(offset(state.doc, [each.end_line, each.end_column]), from)
          return {
            from, to,
            severity: { error: 'error', warning: 'warning', note: 'info' }[each.severity],
            message: `${sentence(each.message)} ${sentence(each.help)}`,
          }
        })))
    }
  }

  freeze(frozen) {
    for (const name of this.states.keys()) {
      this.dispatch(name, () => ({ effects: readOnly.reconfigure(EditorState.readOnly.of(frozen)) }))
    }
  }
}

// A message begins lower case and has no full stop: as a sentence.
export function sentence(words) {
  const first = words.charAt(0).toUpperCase() + words.slice(1)
  return /[.!?]$/.test(first) ? first : `${first}.`
}
