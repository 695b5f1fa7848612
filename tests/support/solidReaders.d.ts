/** What the tests use of two readers that bring no types of their own. */
declare module '@jscad/stl-deserializer' {
  export function deserialize(
    options: { readonly output: 'geometry'; readonly filename: string },
    bytes: ArrayBufferLike,
  ): { readonly polygons: readonly { readonly vertices: readonly (readonly number[])[] }[] }[];
}

declare module 'gltf-validator' {
  export function validateBytes(bytes: Uint8Array): Promise<{
    readonly issues: { readonly messages: readonly { readonly code: string; readonly message: string; readonly severity: number }[] };
  }>;
}
