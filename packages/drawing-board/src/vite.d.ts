declare module "virtual:solid-modeller" {
  const packed: string;
  export default packed;
}

declare module "*?packed" {
  const packed: string;
  export default packed;
}

declare module "*?raw" {
  const text: string;
  export default text;
}

declare module "*.css";
