/**
 * The oldest browsers the page runs in, as the build takes them. Firefox 114 is the first with module
 * workers; Chrome and Edge 111 and Safari 16.4 (March 2023) have what it had by then.
 */
export const OLDEST = ['chrome111', 'edge111', 'firefox114', 'safari16.4'];
