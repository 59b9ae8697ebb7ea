/**
 * Whether a process of this machine is at work.
 * @internal
 */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // One of another person's may not be asked, but is there.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
