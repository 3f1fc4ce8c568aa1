// Saving, what happens when the disk has changed meanwhile, and drafts that outlive a reload.
import { announce, dialog, element } from './dom.js'
import { ask } from './server.js'

const every = 1000 // ms between looks at the disk, while the page is seen

export class Saving {
  constructor(desk) {
    this.desk = desk
    addEventListener('beforeunload', event => {
      if (this.desk.editor.allUnsaved.length) event.preventDefault()
    })
  }

  get editor() {
    return this.desk.editor
  }

  async save() {
    if (this.desk.about['read only']) return true
    for (const name of this.editor.allUnsaved) {
      if (!(await this.saveOne(name))) return false
    }
    this.desk.drawState()
    this.desk.read.settled()
    announce('Saved.')
    return true
  }

  // Whether all is saved, if need be after asking.
  async saved() {
    return !this.editor.allUnsaved.length || this.save()
  }

  async saveOne(name) {
    const text = this.editor.text(name)
    const { digest } = this.editor.saved.get(name)
    const answer = await ask('save', { pattern: this.desk.pattern, file: name, text, digest })
    if (answer.status === 200) {
      this.editor.isSaved(name, text, answer.digest)
      this.draft()
      return true
    }
    if (answer.fault) this.desk.layout.banner(answer.fault)
    else this.conflict(name, answer)
    return false
  }

  // ------------------------------------------------------------ the disk

  watch() {
    clearInterval(this.timer)
    this.timer = setInterval(() => { if (!document.hidden && !this.asking && !this.desk.building) this.look() }, every)
  }

  async look() {
    this.asking = true
    try {
      const { digests, comments } = await ask('since', { pattern: this.desk.pattern })
      if (!digests) return
      await this.desk.comments.since(comments)
      for (const [name, digest] of Object.entries(digests)) {
        const known = this.editor.saved.get(name)
        if (!known || known.digest === digest || this.told === digest) continue
        await this.changedOutside(name)
      }
      if (Object.keys(digests).some(name => !this.editor.saved.has(name))) await this.newFiles()
      for (const [name, { digest }] of this.editor.saved) {
        if (digest && !(name in digests)) this.goneOutside(name)
      }
    } catch {
      return // the next build says that the desk is gone
    } finally {
      this.asking = false
    }
  }

  async disk(name) {
    const { files } = await ask('files', { pattern: this.desk.pattern })
    return files.find(each => each.name === name)
  }

  async newFiles() {
    const { files } = await ask('files', { pattern: this.desk.pattern })
    for (const { name, text, digest } of files) {
      if (this.editor.saved.has(name)) continue
      this.editor.saved.set(name, { text, digest })
      this.editor.replace(name, text)
    }
    this.desk.build()
  }

  // Another program saved the file: what is not being written follows the disk by itself.
  async changedOutside(name) {
    const now = await this.disk(name)
    if (!now) return
    if (this.editor.unsaved(name) && this.editor.text(name) !== now.text) {
      this.told = now.digest
      this.conflict(name, now)
      return
    }
    this.editor.saved.set(name, now)
    if (this.editor.text(name) !== now.text) this.editor.replace(name, now.text)
    this.desk.drawState()
    this.desk.build()
  }

  // Another program took the file away: its text stays here until one says what is to become of it.
  goneOutside(name) {
    const { layout } = this.desk
    this.editor.isSaved(name, '', '')
    this.desk.drawState()
    this.desk.build()
    const close = () => {
      layout.banner('')
      this.editor.forget(name)
      this.draft()
      this.desk.drawState()
      this.desk.build()
    }
    const again = async () => {
      layout.banner('')
      await this.saveOne(name)
      this.desk.drawState()
    }
    const own = name.endsWith('.grid') ? [['Write it again', again], ['Close it', close]] : []
    layout.banner(`Another program removed ${name} from the folder. What you have here is not saved${own.length ? '.' : '; copy it, or put the file back where it was.'}`, ...own)
  }

  conflict(name, now) {
    const { layout } = this.desk
    if (now.text == null) return this.goneOutside(name)
    const keep = async () => {
      this.editor.saved.set(name, { text: now.text, digest: now.digest })
      layout.banner('')
      await this.save()
    }
    const take = () => {
      this.editor.saved.set(name, { text: now.text, digest: now.digest })
      this.editor.replace(name, now.text)
      layout.banner('')
      this.desk.drawState()
    }
    layout.banner(
      `Another program saved ${name} while you wrote in it.`,
      ['Keep mine', keep],
      ['Take the one on the disk', take],
      ['See both', () => both(name, this.editor.text(name), now.text)],
    )
  }

  // ------------------------------------------------------------ drafts

  draft() {
    const kept = this.editor.allUnsaved.map(name =>
      [name, { text: this.editor.text(name), digest: this.editor.saved.get(name).digest }])
    const key = `draft ${this.desk.pattern}`
    try {
      if (kept.length) sessionStorage.setItem(key, JSON.stringify(Object.fromEntries(kept)))
      else sessionStorage.removeItem(key)
    } catch {
      return // a full storage is no reason to stop writing
    }
  }

  // Unsaved texts of before a reload, of files that are still as they were opened.
  drafts(pattern, files) {
    try {
      const kept = JSON.parse(sessionStorage.getItem(`draft ${pattern}`) ?? '{}')
      const now = new Map(files.map(({ name, digest }) => [name, digest]))
      return Object.fromEntries(Object.entries(kept).filter(([name, { digest }]) => digest === (now.get(name) ?? ''))
        .map(([name, { text }]) => [name, text]))
    } catch {
      return {}
    }
  }
}

function both(name, mine, disk) {
  const other = text => new Set(text.split('\n'))
  const shown = (title, text, against) => element('section', {}, element('h3', {}, title),
    element('pre', { tabindex: '0', 'aria-label': title }, ...text.split('\n').map(line => element('span', { class: against.has(line) ? '' : 'apart' }, `${against.has(line) ? ' ' : '»'} ${line}\n`))))
  dialog(name, element('p', {}, 'Lines that only one of the two has begin with ».'),
    element('div', { class: 'both' }, shown('Yours', mine, other(disk)), shown('On the disk', disk, other(mine))))
}
