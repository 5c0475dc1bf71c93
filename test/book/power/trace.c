/*
 * Records what a program does to the files under one folder, in order: opens, writes, truncations, syncs, and names
 * made, changed and taken away; and what it says on standard output, which is how it acknowledges. Preloaded before
 * the C library (LD_PRELOAD), so that it sees the calls of Node.js and of SQLite inside it alike.
 *
 * RODEBENCH_TRACE is the file to record into, RODEBENCH_TRACE_ROOT the folder looked at; after RODEBENCH_TRACE_LINES
 * lines the program is killed, between two of its acts, so that the recording is exactly what was done. A record is a head of seven
 * numbers and two strings of bytes (trace.ts reads them).
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <signal.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/sendfile.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <unistd.h>

enum { OPEN = 1, WRITE, TRUNCATE, SYNC, RENAME, UNLINK, LINK, MKDIR, SAY };
enum { FILE_ = 1, FOLDER = 2 };

static int trace = -1;
static const char *root;
static size_t rootLength;
static long linesLeft;
static char kind[65536];
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static ssize_t (*real_write)(int, const void *, size_t);

#define REAL(name) \
  static __typeof__(&name) real; \
  if (!real) real = (__typeof__(&name))dlsym(RTLD_NEXT, #name)

__attribute__((constructor)) static void begin(void) {
  real_write = (ssize_t (*)(int, const void *, size_t))dlsym(RTLD_NEXT, "write");
  const char *path = getenv("RODEBENCH_TRACE");
  root = getenv("RODEBENCH_TRACE_ROOT");
  if (!path || !root) return;
  rootLength = strlen(root);
  const char *lines = getenv("RODEBENCH_TRACE_LINES");
  linesLeft = lines ? atol(lines) : -1;
  int (*open_)(const char *, int, ...) = (int (*)(const char *, int, ...))dlsym(RTLD_NEXT, "open");
  int fd = open_(path, O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
  // Out of the way of the numbers the program itself counts on.
  trace = fcntl(fd, F_DUPFD_CLOEXEC, 60000);
  if (trace < 0) trace = fd;
  else close(fd);
}

static int inside(const char *path) {
  return trace >= 0 && path && strncmp(path, root, rootLength) == 0 && (path[rootLength] == '/' || path[rootLength] == 0);
}

static int known(int fd) { return trace >= 0 && fd >= 0 && fd < (int)sizeof kind && kind[fd]; }

static void all(const void *bytes, size_t count) {
  const char *at = bytes;
  while (count > 0) {
    ssize_t done = real_write(trace, at, count);
    if (done < 0) abort();
    at += done;
    count -= (size_t)done;
  }
}

static void record(int op, int fd, int flags, uint64_t offset, const void *a, size_t aLength, const void *b, size_t bLength) {
  struct {
    uint32_t op, fd, flags, aLength, bLength, spare;
    uint64_t offset;
  } head = {(uint32_t)op, (uint32_t)fd, (uint32_t)flags, (uint32_t)aLength, (uint32_t)bLength, 0, offset};
  int kept = errno;
  all(&head, sizeof head);
  if (aLength) all(a, aLength);
  if (bLength) all(b, bLength);
  errno = kept;
}

static void recordNames(int op, const char *a, const char *b) { record(op, -1, 0, 0, a, strlen(a), b, b ? strlen(b) : 0); }

static int opened(int fd, const char *path, int flags) {
  if (fd < 0 || fd >= (int)sizeof kind) return fd;
  kind[fd] = 0;
  struct stat is;
  if (inside(path) && fstat(fd, &is) == 0) {
    kind[fd] = S_ISDIR(is.st_mode) ? FOLDER : FILE_;
    record(OPEN, fd, (S_ISDIR(is.st_mode) ? 1 : 0) | (flags & O_TRUNC ? 2 : 0), 0, path, strlen(path), 0, 0);
  }
  return fd;
}

#define OPENING(name) \
  int name(const char *path, int flags, ...) { \
    REAL(name); \
    va_list rest; \
    va_start(rest, flags); \
    mode_t mode = va_arg(rest, mode_t); \
    va_end(rest); \
    pthread_mutex_lock(&lock); \
    int fd = opened(real(path, flags, mode), path, flags); \
    pthread_mutex_unlock(&lock); \
    return fd; \
  }
OPENING(open)
OPENING(open64)

#define OPENING_AT(name) \
  int name(int at, const char *path, int flags, ...) { \
    REAL(name); \
    va_list rest; \
    va_start(rest, flags); \
    mode_t mode = va_arg(rest, mode_t); \
    va_end(rest); \
    pthread_mutex_lock(&lock); \
    int fd = opened(real(at, path, flags, mode), path, flags); \
    pthread_mutex_unlock(&lock); \
    return fd; \
  }
OPENING_AT(openat)
OPENING_AT(openat64)

static uint64_t place(int fd) {
  struct stat is;
  if ((fcntl(fd, F_GETFL) & O_APPEND) && fstat(fd, &is) == 0) return (uint64_t)is.st_size;
  return (uint64_t)lseek(fd, 0, SEEK_CUR);
}

ssize_t write(int fd, const void *bytes, size_t count) {
  if (trace < 0 || (fd != 1 && !known(fd))) return real_write(fd, bytes, count);
  pthread_mutex_lock(&lock);
  uint64_t offset = fd == 1 ? 0 : place(fd);
  ssize_t done = real_write(fd, bytes, count);
  if (done > 0) record(fd == 1 ? SAY : WRITE, fd, 0, offset, bytes, (size_t)done, 0, 0);
  if (fd == 1)
    for (ssize_t i = 0; i < done; i++)
      if (((const char *)bytes)[i] == '\n' && --linesLeft == 0) kill(getpid(), SIGKILL);
  pthread_mutex_unlock(&lock);
  return done;
}

#define WRITING_AT(name, type) \
  ssize_t name(int fd, const void *bytes, size_t count, type offset) { \
    REAL(name); \
    if (!known(fd)) return real(fd, bytes, count, offset); \
    pthread_mutex_lock(&lock); \
    ssize_t done = real(fd, bytes, count, offset); \
    if (done > 0) record(WRITE, fd, 0, (uint64_t)offset, bytes, (size_t)done, 0, 0); \
    pthread_mutex_unlock(&lock); \
    return done; \
  }
WRITING_AT(pwrite, off_t)
WRITING_AT(pwrite64, off64_t)

static void recordVector(int fd, const struct iovec *parts, int count, uint64_t offset, ssize_t done) {
  for (int i = 0; i < count && done > 0; i++) {
    size_t of = parts[i].iov_len < (size_t)done ? parts[i].iov_len : (size_t)done;
    record(fd == 1 ? SAY : WRITE, fd, 0, offset, parts[i].iov_base, of, 0, 0);
    offset += of;
    done -= (ssize_t)of;
  }
}

ssize_t writev(int fd, const struct iovec *parts, int count) {
  REAL(writev);
  if (trace < 0 || (fd != 1 && !known(fd))) return real(fd, parts, count);
  pthread_mutex_lock(&lock);
  uint64_t offset = fd == 1 ? 0 : place(fd);
  ssize_t done = real(fd, parts, count);
  recordVector(fd, parts, count, offset, done);
  pthread_mutex_unlock(&lock);
  return done;
}

#define VECTOR_AT(name, type) \
  ssize_t name(int fd, const struct iovec *parts, int count, type offset) { \
    REAL(name); \
    if (!known(fd)) return real(fd, parts, count, offset); \
    pthread_mutex_lock(&lock); \
    ssize_t done = real(fd, parts, count, offset); \
    recordVector(fd, parts, count, (uint64_t)offset, done); \
    pthread_mutex_unlock(&lock); \
    return done; \
  }
VECTOR_AT(pwritev, off_t)
VECTOR_AT(pwritev64, off64_t)

/* Copies inside the system are refused, so that the program falls back on reading and writing. */
ssize_t copy_file_range(int in, off64_t *inAt, int out, off64_t *outAt, size_t count, unsigned flags) {
  REAL(copy_file_range);
  if (!known(out)) return real(in, inAt, out, outAt, count, flags);
  errno = ENOSYS;
  return -1;
}

static ssize_t copied(int out, int in, off64_t *at, size_t count) {
  static char buffer[1 << 16];
  if (count > sizeof buffer) count = sizeof buffer;
  ssize_t got = at ? pread64(in, buffer, count, *at) : read(in, buffer, count);
  if (got <= 0) return got;
  uint64_t offset = place(out);
  ssize_t done = real_write(out, buffer, (size_t)got);
  if (done > 0) {
    record(WRITE, out, 0, offset, buffer, (size_t)done, 0, 0);
    if (at) *at += done;
  }
  return done;
}

#define SENDING(name, type) \
  ssize_t name(int out, int in, type *at, size_t count) { \
    REAL(name); \
    if (!known(out)) return real(out, in, at, count); \
    pthread_mutex_lock(&lock); \
    off64_t wide = at ? (off64_t)*at : 0; \
    ssize_t done = copied(out, in, at ? &wide : 0, count); \
    if (at) *at = (type)wide; \
    pthread_mutex_unlock(&lock); \
    return done; \
  }
SENDING(sendfile, off_t)
SENDING(sendfile64, off64_t)

long syscall(long number, ...) {
  REAL(syscall);
  va_list rest;
  va_start(rest, number);
  long a = va_arg(rest, long), b = va_arg(rest, long), c = va_arg(rest, long);
  long d = va_arg(rest, long), e = va_arg(rest, long), f = va_arg(rest, long);
  va_end(rest);
  if (number == SYS_copy_file_range && known((int)c)) {
    errno = ENOSYS;
    return -1;
  }
  return real(number, a, b, c, d, e, f);
}

int ioctl(int fd, unsigned long request, ...) {
  REAL(ioctl);
  va_list rest;
  va_start(rest, request);
  void *argument = va_arg(rest, void *);
  va_end(rest);
  /* FICLONE: one file made a clone of another. */
  if (request == 0x40049409 && known(fd)) {
    errno = EOPNOTSUPP;
    return -1;
  }
  return real(fd, request, argument);
}

#define CUTTING(name, type) \
  int name(int fd, type length) { \
    REAL(name); \
    if (!known(fd)) return real(fd, length); \
    pthread_mutex_lock(&lock); \
    int done = real(fd, length); \
    if (done == 0) record(TRUNCATE, fd, 0, (uint64_t)length, 0, 0, 0, 0); \
    pthread_mutex_unlock(&lock); \
    return done; \
  }
CUTTING(ftruncate, off_t)
CUTTING(ftruncate64, off64_t)

#define SYNCING(name) \
  int name(int fd) { \
    REAL(name); \
    if (!known(fd)) return real(fd); \
    pthread_mutex_lock(&lock); \
    int done = real(fd); \
    if (done == 0) record(SYNC, fd, 0, 0, 0, 0, 0, 0); \
    pthread_mutex_unlock(&lock); \
    return done; \
  }
SYNCING(fsync)
SYNCING(fdatasync)

#define NAMING(name, op) \
  int name(const char *from, const char *to) { \
    REAL(name); \
    pthread_mutex_lock(&lock); \
    int done = real(from, to); \
    if (done == 0 && (inside(from) || inside(to))) recordNames(op, from, to); \
    pthread_mutex_unlock(&lock); \
    return done; \
  }
NAMING(rename, RENAME)
NAMING(link, LINK)

int unlink(const char *path) {
  REAL(unlink);
  pthread_mutex_lock(&lock);
  int done = real(path);
  if (done == 0 && inside(path)) recordNames(UNLINK, path, 0);
  pthread_mutex_unlock(&lock);
  return done;
}

int mkdir(const char *path, mode_t mode) {
  REAL(mkdir);
  pthread_mutex_lock(&lock);
  int done = real(path, mode);
  if (done == 0 && inside(path)) recordNames(MKDIR, path, 0);
  pthread_mutex_unlock(&lock);
  return done;
}

int close(int fd) {
  REAL(close);
  if (fd >= 0 && fd < (int)sizeof kind) kind[fd] = 0;
  return real(fd);
}
