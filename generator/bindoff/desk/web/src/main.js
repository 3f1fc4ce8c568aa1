// The desk: opens a pattern, builds what is written, and keeps its columns together.
import { Changes } from './changes.js'
import { Comments } from './comments.js'
import { announce, by, dialog, element, painted, tell } from './dom.js'
import { Editor } from './editor.js'
import { Gauge } from './gauge.js'
import { columns } from './layout.js'
import { Lines } from './lines.js'
import { NewChart } from './newchart.js'
import { Pages } from './pages.js'
import { Motifs } from './painter-motifs.js'
import { Painter } from './painter.js'
import { Read } from './read.js'
import { Reckoning } from './reckoning.js'
import { Reread } from './reread.js'
import { Saving } from './saving.js'
import { ask, client } from './server.js'
import { showStart } from './start.js'

// Where nothing may be written, and nothing while the word there grows: prose is asked about once a word.
let barren = null

// What may be written at the cursor, asked of the server while a word is typed or when one asks.
async function complete(context, editor) {
  const { file, at } = editor.cursor
  if (!file.endsWith('.yaml') || (!context.explicit && !context.matchBefore(/[\w-]$|[:[,-] $/))) return null
  const { doc } = context.state
  const line = doc.lineAt(context.pos)
  const before = line.text.slice(0, context.pos - line.from)
  const grown = barren?.line === line.from && before.startsWith(barren.before) ? before.slice(barren.before.length) : ' '
  if (!context.explicit && /^[\w-]*$/.test(grown) && doc.length === barren.length + grown.length) return null
  const told = await ask('complete', { text: doc.toString(), line: at[0], column: at[1] })
  barren = told.words?.length === 0 ? { line: line.from, before, length: doc.length } : null
  if (!told.words?.length || context.aborted) return null
  const from = Math.min(line.from + [...line.text].slice(0, told.start - 1).join('').length, context.pos)
  return {
    from,
    options: told.words.map(({ word, meaning }) => ({
      label: word, apply: told.keys ? `${word}: ` : word, info: meaning || undefined,
    })),
    validFor: /^[\w ./-]*$/,
  }
}

const pause = 70 // ms without a key before what is written is built

class Desk {
  constructor(about) {
    this.about = about
    this.pattern = ''
    this.version = 0
    this.building = false
    this.wanted = false
    this.editor = new Editor({
      changed: () => this.changed(),
      moved: () => this.moved(),
      shown: name => this.painter.shown(name),
      pointed: (file, at, take) => this.painter.point(file, at, take),
      complete: context => complete(context, this.editor),
      about: (file, text, at) => ask('about', { client, file, text, line: at[0], column: at[1] }),
    })
    this.painter = new Painter({ editor: this.editor, frozen: Boolean(about['read only']) })
    this.pages = new Pages({
      chosen: (region, take) => this.pageChosen(region, take),
      cellOf: (file, at) => this.painter.cellOf(file, at),
    })
    this.motifs = new Motifs({
      pages: this.pages, frozen: Boolean(about['read only']),
      write: (wishes, said) => this.written('move', wishes, said),
    })
    this.read = new Read({
      chosen: finding => this.findingChosen(finding),
      mend: (finding, fix) => this.mend(finding, fix),
      silenced: (check, because) => this.written('silence', { check, because }, 'The reason is written into the pattern.'),
    })
    this.reckoning = new Reckoning({ chosen: line => this.editor.point(this.editor.source, [line, 1], [line, 1], true) })
    this.gauge = new Gauge({ changed: () => this.soon(), write: () => this.writeGauge() })
    this.changes = new Changes({ chosen: () => this.build(), beside: shown => this.pages.beside(shown) })
    this.comments = new Comments({
      chosen: comment => this.commentChosen(comment),
      shown: open => this.pages.flags(open),
      fault: words => this.layout.banner(words),
    })
    this.reread = new Reread({
      chosen: place => this.askedChosen(place),
      fault: words => this.layout.banner(words),
    })
    this.newChart = new NewChart({ begun: made => this.begun(made) })
    this.lines = new Lines({ chosen: (file, at, take) => this.lineChosen(file, at, take) })
    this.saving = new Saving(this)
    this.layout = columns(name => { if (name === 'pages') this.pages.comeUp() })
    this.choices()
    this.keys()
  }

  async open(pattern) {
    by('start').hidden = true
    by('work').hidden = false
    this.pattern = pattern
    by('title').textContent = this.about.titles[pattern]
    const found = await ask('files', { pattern })
    if (found.fault) return this.layout.banner(found.fault)
    this.editor.source = found.source
    this.editor.open(found.files, this.saving.drafts(pattern, found.files))
    this.opened = Object.fromEntries(found.files.map(({ name, text }) => [name, text]))
    this.changes.offer(pattern, this.about.patterns.map(each => [each, this.named(each)]))
    if (this.about['read only']) {
      this.editor.freeze(true)
      this.gauge.freeze()
      this.read.frozen = true
      this.comments.frozen = true
      this.reread.frozen = true
    }
    this.comments.open(pattern)
    Object.assign(this.reread, { pattern, source: found.source })
    if (found.findings) this.read.show(found.findings)
    this.remember()
    this.drawState()
    this.build()
    this.saving.watch()
  }

  // ------------------------------------------------------------ building

  changed() {
    this.painter.refresh()
    this.saving.draft()
    this.drawState()
    this.soon()
  }

  soon() {
    clearTimeout(this.timer)
    this.timer = setTimeout(() => this.build(), pause)
  }

  // Whether something was written that the server has not built: whatever else it is asked, waits.
  get behind() {
    return [...this.editor.texts].some(([name, doc]) => this.builtTexts?.get(name) !== doc)
  }

  // What every request about the pages has in common.
  get asked() {
    return { client, size: by('size').value, edition: by('edition').value, gauges: this.gauge.stated }
  }

  // One build at a time; what is written meanwhile is built after it, once.
  async build() {
    if (this.building) {
      this.wanted = true
      return
    }
    this.building = true
    this.wanted = false
    const version = ++this.version
    const texts = this.editor.texts
    document.body.dataset.building = version
    const slow = setTimeout(() => { by('state').dataset.slow = 'true' }, 600)
    try {
      const answer = await ask('build', {
        ...this.asked, version, pattern: this.pattern, texts: this.editor.unsavedTexts,
      })
      this.builtTexts = texts
      if (version === this.version) await this.built(answer)
    } catch {
      this.layout.banner('The desk does not answer. Is it still running? What you wrote stays here.')
    } finally {
      clearTimeout(slow)
      by('state').dataset.slow = 'false'
      this.building = false
      document.body.dataset.built = version
      if (this.wanted) this.build()
    }
  }

  async built(answer) {
    if (answer.fault) return this.layout.banner(answer.fault)
    if (answer.superseded) return
    if (answer['no gauge']) return this.gauge.fault(answer['no gauge'])
    if (answer.stale) {
      by('stale').classList.remove('tried')
      this.painter.know(answer)
      const first = answer.findings.find(each => each.file && each.severity === 'error')
      const at = first ? `Line ${first.line} of ${first.file}` : 'An error'
      const why = this.gauge.trying ? 'It can’t be made at this gauge.' : `${at} stops the build.`
      by('stale').textContent = this.shownAt
        ? `${why} The pages are those of ${this.shownAt}.`
        : `${why} Mend it, and the pages appear.`
      by('stale').hidden = false
      this.found(answer.findings)
      this.moved(true)
      await this.comments.load()
      return
    }
    by('stale').classList.add('tried')
    by('stale').hidden = !this.gauge.trying
    by('stale').textContent = `The pages show what would be at ${this.gauge.stated.join(', ')}.`
    this.shownAt = new Date().toLocaleTimeString()
    by('title').textContent = answer.title
    document.title = `${answer.title} – the desk`
    this.sizes(answer.sizes)
    this.gauge.show(answer.gauges)
    this.comments.sizes(answer.sizes)
    this.shownTexts = this.builtTexts
    this.painter.know(answer)
    await this.pages.show(answer)
    await painted()
    document.body.dataset.painted = answer.version
    this.moved(true)
    if (this.wanted) return
    const told = await ask('tell', { client, version: answer.version })
    if (answer.version !== this.version || told.fault) return
    this.found(told.findings)
    this.read.text(told.text)
    await this.comments.load()
    await this.compare(answer)
    this.reread.soon(() => answer.version === this.version && !this.wanted)
  }

  // What differs from whatever it is compared with, if anything.
  async compare({ version, pages }) {
    const { trying } = this.gauge
    const wanted = this.changes.wanted(trying, this.editor.unsavedTexts, this.opened)
    if (!wanted) {
      this.changes.clear(trying)
      this.pages.earlier([])
      return
    }
    const found = await ask('compare', { ...this.asked, ...wanted })
    if (version !== this.version || found.fault) return
    this.changes.show(found, pages, trying)
    await this.pages.earlier(found.earlier?.pages ?? [])
  }

  writeGauge() {
    return this.written('gauge', {}, 'The gauge is written into the pattern.')
  }

  // Changes of the source that the server works out, made as if they had been typed.
  async written(name, wishes, said) {
    const texts = this.shownTexts
    const { edits, fault } = await ask(name, { ...this.asked, ...wishes })
    if (fault) return this.layout.banner(fault)
    this.edit(edits, texts, said)
  }

  mend(finding, fix) {
    const edits = [{ file: finding.file, from: [fix.line, fix.column], to: [fix.end_line, fix.end_column], insert: fix.text }]
    this.edit(edits, this.foundTexts, 'Mended.')
    this.editor.point(finding.file, edits[0].from, edits[0].from, true)
  }

  edit(edits, texts, said) {
    const made = this.editor.edit(edits, texts)
    tell(made ? `${said} It is not saved yet.` : 'The text has changed meanwhile. Try once more.')
    return made
  }

  // A new grid, and the lines of the source that name it; one paints on it at once.
  begun({ file, text, edits }) {
    if (!this.edit(edits, this.shownTexts, `${file} is begun.`)) return
    this.editor.begin(file, text)
    this.editor.show(file)
    this.layout.show('source', true)
    this.soon()
  }

  found(findings) {
    this.foundTexts = this.builtTexts
    this.read.show(findings)
    this.editor.underline(findings)
  }

  sizes(names) {
    const select = by('size')
    const known = [...select.options].slice(1).map(each => each.value)
    if (JSON.stringify(known) === JSON.stringify(names)) return
    const chosen = select.value || this.wish?.get('size') || ''
    select.replaceChildren(element('option', { value: '' }, 'all'), ...names.map(each => element('option', { value: each }, each)))
    if (names.includes(chosen)) select.value = chosen
  }

  // ------------------------------------------------------------ moving together

  moved(still = false) {
    clearTimeout(this.follow)
    this.follow = setTimeout(() => {
      if (this.pages.walked >= 0 || (!still && !by('source').contains(document.activeElement))) return
      this.here = this.editor.cursor
      this.pages.mark(this.pages.follow(this.here), !still)
      this.reckon(this.here.file, this.here.at[0])
    }, still ? 0 : 120)
  }

  pageChosen(region, take) {
    const { motif, aimed = { line: 1, stitch: 1 } } = region
    const toSource = () => this.pageChosen({ ...region, motif: null }, true)
    const toBoard = taken => {
      if (taken) this.layout.show('source')
      this.painter.goTo(motif.grid, aimed, taken)
    }
    if (take && motif) return this.motifs.ask(motif, toSource, () => toBoard(true))
    if (motif && this.painter.file === motif.grid) return toBoard(false)
    if (take) this.layout.show('source')
    if (region.cell) this.painter.goTo(region.file, region.cell, take)
    else this.editor.point(region.file, region.from, region.to, take)
    this.reckon(region.file, region.from[0])
  }

  // The figures of a line, which a comment would be about too; those of a new text follow its pages.
  async reckon(file, line) {
    this.comments.at(file, line, '')
    if (!this.shownAt || this.behind) return
    const title = await this.reckoning.show(file, line)
    if (title) this.comments.at(file, line, title)
  }

  commentChosen({ file, from, to }) {
    this.pages.mark(this.pages.follow({ file, at: from }))
    this.editor.point(file, from, to, true)
  }

  askedChosen({ file, from, to }) {
    this.layout.show('source')
    this.pages.mark(this.pages.follow({ file, at: from }))
    this.editor.point(file, from, to, true)
  }

  writeComment() {
    this.layout.show('read')
    by('comments-title').scrollIntoView({ block: 'start' })
    by('comment-text').focus()
  }

  lineChosen(file, at, take) {
    this.pageChosen({ file, from: at, to: at }, take)
    this.pages.follow({ file, at })
  }

  findingChosen(finding) {
    if (!finding.file) return
    this.layout.show('source')
    this.editor.point(finding.file, [finding.line, finding.column], [finding.end_line, finding.end_column], true)
  }

  // ------------------------------------------------------------ choices and keys

  choices() {
    const frozen = this.about['read only']
    for (const id of ['save', 'make', 'new-chart', 'undo', 'redo']) by(id).hidden = frozen
    by('pattern').replaceChildren(
      ...this.about.patterns.map(each => element('option', { value: each }, this.named(each))),
      ...(this.about.alone || frozen ? [] : [element('option', { value: '' }, 'begin another …')]))
    by('pattern').closest('label').hidden = this.about.alone
    by('pattern').onchange = () => this.leave(by('pattern').value)
    this.wish = new URLSearchParams(location.hash.slice(1))
    by('edition').value = this.wish.get('edition') || 'a4'
    by('zoom').value = this.wish.get('zoom') || 'fit'
    if (this.wish.get('size')) by('size').append(element('option', { value: this.wish.get('size'), selected: true }, this.wish.get('size')))
    this.pages.zoom(by('zoom').value)
    by('size').onchange = by('edition').onchange = () => { this.remember(); this.build() }
    by('zoom').onchange = () => { this.remember(); this.pages.zoom(by('zoom').value) }
    by('save').onclick = () => this.saving.save()
    for (const way of ['undo', 'redo']) by(way).onclick = () => (this.editor.panel === 'painter' ? this.painter : this.editor).step(way)
    by('make').onclick = () => this.make()
    by('keys').onclick = () => this.tellKeys()
  }

  // The title of a pattern, with its folder where several have the same.
  named(pattern) {
    const { patterns, titles } = this.about
    const title = titles[pattern]
    return patterns.some(each => each !== pattern && titles[each] === title) ? `${title} (${pattern})` : title
  }

  async leave(pattern) {
    if (this.editor.allUnsaved.length && !confirm('Some of what you wrote is not saved. Leave it?')) {
      by('pattern').value = this.pattern
      return
    }
    this.editor.open([])
    location.hash = pattern ? `pattern=${encodeURIComponent(pattern)}` : ''
    location.reload()
  }

  remember() {
    const kept = new URLSearchParams({
      pattern: this.pattern, size: by('size').value, edition: by('edition').value, zoom: by('zoom').value,
    })
    history.replaceState(null, '', `#${kept}`)
    by('pattern').value = this.pattern
    by('pdf').href = `pdf/${encodeURIComponent(this.pattern)}/${by('edition').value}`
  }

  drawState() {
    const unsaved = this.editor.allUnsaved
    by('state').textContent = this.about['read only'] ? 'for reading only' : unsaved.length ? 'not saved' : 'saved'
    by('state').dataset.unsaved = String(unsaved.length > 0)
    by('save').disabled = !unsaved.length
    this.editor.drawTabs()
  }

  keys() {
    addEventListener('keydown', event => {
      const mod = event.ctrlKey || event.metaKey
      const done = () => event.preventDefault()
      if (by('work').hidden || by('dialog').open) return
      if (mod && event.key.toLowerCase() === 's') { done(); this.saving.save() }
      else if (mod && event.key === 'Enter') { done(); this.showHere() }
      else if (event.key === 'F6') { done(); this.layout.next(event.shiftKey ? -1 : 1) }
      else if (event.key === 'F4' && !event.altKey && !this.about['read only']) { done(); this.writeComment() }
      else if (event.key === 'F8') { done(); this.read.step(event.shiftKey ? -1 : 1) }
      else if (event.key === '?' && !event.target.closest('.cm-editor, input, select, textarea')) { done(); this.tellKeys() }
    }, true)
  }

  showHere() {
    const found = this.pages.follow(this.editor.cursor)
    if (found.length) this.layout.show('pages')
    if (found.length) announce(`Page ${found[0].page + 1}.`)
    else tell('No page shows this line.')
  }

  tellKeys() {
    const mod = /Mac/.test(navigator.platform) ? 'Cmd' : 'Ctrl'
    const keys = [
      [`${mod} S`, 'save'], [`${mod} Enter`, 'show the place of this line on its page'],
      ['F4', 'comment on the step or number at the cursor'],
      ['F6, Shift F6', 'to the next or the previous column'], ['F8, Shift F8', 'to the next or the previous finding'],
      [`${mod} Z, ${mod} Y`, 'undo, redo'], [`${mod} F`, 'find in the source'],
      [`${mod} I`, 'say what the word at the cursor is: a key, yarn, measure, chart or stitch'],
      ['Enter on the pages', 'walk from place to place with the arrows; Enter goes to the source, Escape ends'],
      [`${mod} click on a page`, 'go to the source of that place'],
    ]
    if (this.painter.open) keys.push(...this.painter.keyWords)
    dialog('Keys', element('dl', {}, ...keys.flatMap(([key, words]) => [element('dt', {}, key), element('dd', {}, words)])))
  }

  async make() {
    if (!(await this.saving.saved())) return
    const { pattern } = this
    const bar = element('progress', { 'aria-label': 'Being made', max: '100', value: '0' })
    dialog('Make everything', element('p', {}, 'Every edition is made of what is saved. This takes some seconds.'), bar)
    const look = setInterval(async () => {
      const { made: share } = await ask('progress', { pattern }).catch(() => ({}))
      if (share != null) bar.value = Math.round(share * 100)
    }, 300)
    const made = await ask('make', { pattern, every: true }).finally(() => clearInterval(look))
    if (made.fault) return dialog('Nothing was made', element('p', {}, made.fault))
    if (made.failed) {
      this.found(made.findings)
      return dialog('Nothing was made', element('p', {}, 'The pattern has an error: it stands first among the findings. What was made before stays as it was.'))
    }
    const open = element('button', { type: 'button', onclick: () => ask('show', { pattern: this.pattern }) }, 'Open the folder')
    dialog('Made', element('p', {}, `${made.paths.length} files are in ${made.folder}`), element('ul', { class: 'made' }, ...made.paths.map(each => element('li', {}, each))), open)
  }
}

const about = await ask('patterns')
const wished = new URLSearchParams(location.hash.slice(1)).get('pattern')
const named = about.patterns.includes(wished) ? wished : about.alone ? about.patterns[0] : ''
async function begin(known, pattern) {
  globalThis.desk = new Desk(known) // for whoever looks in with the browser's own tools
  await globalThis.desk.open(pattern)
}
const opened = async pattern => {
  await begin(await ask('patterns'), pattern)
  globalThis.desk.editor.view.focus() // what had the focus is gone
}
if (named) await begin(about, named)
else showStart(about, opened)
document.body.dataset.ready = 'true'
