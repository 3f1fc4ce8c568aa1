// Bundles src/ into built/desk.js, and writes the licences of what is in it into built/NOTICES.txt.
//   npm ci --ignore-scripts && node build.mjs
// The same sources and the same lock file give the same bytes.
import { build } from 'esbuild'
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'

const result = await build({
  entryPoints: ['src/main.js'],
  outfile: 'built/desk.js',
  bundle: true,
  minify: true,
  format: 'esm',
  target: 'es2022',
  charset: 'utf8',
  legalComments: 'none',
  metafile: true,
  write: false,
})
mkdirSync('built', { recursive: true })
for (const file of result.outputFiles) writeFileSync('built/desk.js', file.contents)

const used = new Set()
for (const input of Object.keys(result.metafile.inputs)) {
  const found = input.match(/^node_modules\/((?:@[^/]+\/)?[^/]+)\//)
  if (found) used.add(found[1])
}
const notices = [...used].sort().map(name => {
  const folder = `node_modules/${name}`
  const { version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'))
  const file = readdirSync(folder).find(each => /^licen[cs]e/i.test(each))
  if (!file) throw new Error(`${name} has no licence text`)
  return `${name} ${version} (${license})\n\n${readFileSync(`${folder}/${file}`, 'utf8').trim()}\n`
})
const head = 'The page of the desk contains these packages, each under its own licence.\n'
writeFileSync('built/NOTICES.txt', [head, ...notices].join(`\n${'-'.repeat(72)}\n\n`))
console.log(`desk.js ${result.outputFiles[0].contents.length} bytes, ${used.size} packages`)
