/** Shards as files: read in pieces, since they may be larger than the memory. */
import { open, type FileHandle } from 'node:fs/promises';
import { openShard, ShardWrong, type ShardFile } from '../../shards/read-shard.ts';
import { diskTrouble } from './disk-trouble.ts';
import { commandWrong } from '../trouble.ts';

/** Opens it for every read, so that a thousand shards are not a thousand open files. */
export async function shardFile(path: string): Promise<ShardFile> {
  return {
    name: path,
    byteLength: await withFile(path, async (file) => {
      const found = await file.stat();
      if (found.isDirectory())
        throw commandWrong(`${path} is a folder. Name the files in it: ${path}/*.parquet`);
      return found.size;
    }),
    read: (start, end) =>
      withFile(path, async (file) => {
        const bytes = new Uint8Array(end - start);
        let done = 0;
        while (done < bytes.length) {
          const { bytesRead } = await file.read(bytes, done, bytes.length - done, start + done);
          if (bytesRead === 0) break;
          done += bytesRead;
        }
        return bytes.buffer.slice(0, done);
      }),
  };
}

async function withFile<T>(path: string, use: (file: FileHandle) => Promise<T>): Promise<T> {
  try {
    const file = await open(path, 'r');
    try {
      return await use(file);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw diskTrouble(error, path, 'read');
  }
}

/** Whether it is a whole shard, whatever it is a shard of. */
export async function isShard(path: string): Promise<boolean> {
  try {
    await openShard(await shardFile(path));
    return true;
  } catch (error) {
    if (error instanceof ShardWrong) return false;
    throw error;
  }
}
