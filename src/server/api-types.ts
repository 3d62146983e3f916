/**
 * The contract between the page and the server on loopback: pure types, nothing that runs.
 *
 * Everything is JSON under `/api`. A **tag** names one exact content of one file; it is also sent as the `ETag`
 * header. Saving says which content it replaces, so that nothing changed underneath is ever overwritten:
 *
 * | request                          | headers                              | 200 or 201 answers   | else        |
 * | -------------------------------- | ------------------------------------ | -------------------- | ----------- |
 * | `GET /api/about`                 |                                      | `About`              |             |
 * | `GET /api/supplies`              |                                      | `Shelf`              |             |
 * | `GET /api/supplies/<id>`         |                                      | `StoredSupply`       | 404 422     |
 * | `GET /api/supplies/<id>/previous`|                                      | `StoredSupply`       | 404 422     |
 * | `PUT /api/supplies/<id>`         | `If-Match: "<tag>"` replaces that    | `Saved`              | 409 422 428 |
 * |                                  | `If-None-Match: *` makes a new one   |                      |             |
 * | `DELETE /api/supplies/<id>`      | `If-Match: "<tag>"`                  | `Deleted`            | 404 409 428 |
 * | `GET /api/drawer`                |                                      | `StoredDrawer`       | 404 422     |
 * | `PUT /api/drawer`                | as for a supply                      | `Saved`              | 409 422 428 |
 *
 * The body of a `PUT` is the supply or the drawer itself, with `Content-Type: application/json`. The `id` inside a
 * supply must be the one in the address. Every answer that is not 200 or 201 is an `ApiFailure`.
 */
import type { FileProblem } from '../engine/file/problem.ts'
import type { Drawer } from '../engine/parts/part.ts'
import type { Supply } from '../engine/supply/supply.ts'

export type About = {
  name: 'gapwright'
  version: string
  /** The bench folder, as a path for people to read. */
  folder: string
}

/** One readable supply in the bench folder. */
export type ShelfEntry = {
  id: string
  name: string
  tag: string
  /** When the file was last written: ISO 8601, UTC. */
  savedAt: string
}

/** A file that is in the folder and cannot be opened as it is; it is left alone. */
export type UnreadableFile = { file: string; problems: FileProblem[] }

/** Sorted by name; `drawerTag` is null while the folder has no `drawer.json`. */
export type Shelf = { supplies: ShelfEntry[]; unreadable: UnreadableFile[]; drawerTag: string | null }

/** `migratedFrom` is the file's older version when it was read forward, else null; the file itself is unchanged. */
export type StoredSupply = { tag: string; supply: Supply; migratedFrom: number | null }

export type StoredDrawer = { tag: string; drawer: Drawer; migratedFrom: number | null }

/** The new tag, for the next `If-Match`. */
export type Saved = { tag: string }

/** Deleted files are kept: the name inside the folder's `.deleted`. */
export type Deleted = { kept: string }

export type ApiErrorCode =
  /** 400 the request itself is malformed. */
  | 'bad-request'
  /** 403 not from this page, or not to this host. */
  | 'forbidden'
  /** 404 nothing by that name. */
  | 'not-found'
  /** 405 this address does not take that method. */
  | 'method-not-allowed'
  /** 409 the file is not what the request says it replaces; `presentTag` tells what is there, null if nothing. */
  | 'conflict'
  /** 413 body over the size limit. */
  | 'too-large'
  /** 415 the body is not `application/json`. */
  | 'unsupported-type'
  /** 422 not a valid supply or drawer; `problems` has each path and sentence. */
  | 'invalid'
  /** 428 neither `If-Match` nor `If-None-Match: *` was sent. */
  | 'precondition-required'
  /** 500 the disk refused; the message says what. */
  | 'disk'

export type ApiFailure = {
  error: {
    code: ApiErrorCode
    /** One sentence for the person. */
    message: string
    /** With `invalid`. */
    problems?: FileProblem[]
    /** With `conflict`. Get the file again to see what is there. */
    presentTag?: string | null
  }
}
