export { type JudgeOptions, judgeDxf } from "./judge.ts";
export { withKerf, withoutKerf } from "./kerf.ts";
export { type LayerMeaning, layerName, readLayerName } from "./layer.ts";
export { readOutline } from "./outline/outline.ts";
export { withDrawingFiles } from "./outline/with-files.ts";
export {
  type DxfLoop,
  type DxfPath,
  type DxfPlace,
  type DxfReading,
  type DxfText,
  type DxfUnread,
  readDxf,
  regionsOnLayer,
} from "./read.ts";
export { type DxfOptions, partDxf, partDxfR12, sheetDxf, sheetDxfR12 } from "./write.ts";
