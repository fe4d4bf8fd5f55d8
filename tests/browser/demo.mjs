// The made-up fleet with its people, for tests and pictures that want a full organization.
import { spawn } from 'node:child_process';

/** Starts the made-up fleet on a free port; answers its address and who can sign in, by role. */
export async function startDemo(...options) {
  const program = process.env.SOWMARK ?? 'target/debug/sowmark';
  const server = spawn(program, ['demo', '--listen', '127.0.0.1:0', ...options], { stdio: ['ignore', 'pipe', 'ignore'] });
  const printed = await new Promise((resolve, reject) => {
    let text = '';
    const late = setTimeout(() => reject(new Error(`nothing useful in 5 minutes: ${text}`)), 300_000);
    server.stdout.on('data', (data) => {
      text += data;
      // The last account, and the empty line after it.
      if (/agronomist[^\n]*\n(?:[^\n]+\n)*\n/.test(text)) {
        clearTimeout(late);
        resolve(text);
      }
    });
    server.on('exit', (code) => reject(new Error(`the program ended with ${code}`)));
  });
  const people = [...printed.matchAll(/^ +(office|crew|agronomist) .* (\S+@\S+) +(\S+)$/gm)];
  const url = printed.match(/http:\/\/[\d.:]+/)[0];
  const signIn = async (page, role) => {
    const [email, password] = people.find((person) => person[1] === role).slice(2, 4);
    await page.goto(`${url}/sign-in`);
    await page.fill('[name=email]', email);
    await page.fill('[name=password]', password);
    await page.press('[name=password]', 'Enter');
    await page.waitForURL((at) => !at.pathname.startsWith('/sign-in'));
  };
  const stop = () => { server.removeAllListeners('exit'); server.kill(); };
  return { url, signIn, stop };
}
