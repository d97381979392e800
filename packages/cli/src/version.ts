export { VERSION } from "@dryfit/job";
