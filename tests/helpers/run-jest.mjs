// Starts Jest as ES modules: the flag must be on the node that runs Jest, and a package script
// cannot set an environment variable the same way on every system.
import { spawn } from 'node:child_process'
import { createRequire } from 'node:module'

const jest = createRequire(import.meta.url).resolve('jest/bin/jest')
const child = spawn(
  process.execPath,
  ['--experimental-vm-modules', '--no-warnings', jest, ...process.argv.slice(2)],
  { stdio: 'inherit' },
)
child.on('exit', (code, signal) => process.exit(signal ? 1 : (code ?? 1)))
