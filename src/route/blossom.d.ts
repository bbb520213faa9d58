/** `edmonds-blossom-fixed` has no types of its own; it is called as `edmonds-blossom` is. */
declare module 'edmonds-blossom-fixed' {
  export { default } from 'edmonds-blossom';
}
