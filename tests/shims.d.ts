/** Libraries without types that only tests use. */
declare module "psychrolib";
