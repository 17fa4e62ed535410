/* Loaded before the C library of a program that is going to be killed (LD_PRELOAD): of every file below SYNCED_FOLDER it keeps what was there at
   the last fsync, in SYNCED_FOLDER/.synced. That, and nothing else, is what a power cut leaves for certain. A file that was taken away is gone with the
   next fsync of any other: so do the file systems that keep a journal of names. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static pthread_mutex_t one = PTHREAD_MUTEX_INITIALIZER;

static char gone[16][256];
static int goes;

static const char *name_of(const char *path)
{
    const char *folder = getenv("SYNCED_FOLDER");
    if (!folder || strncmp(path, folder, strlen(folder)) != 0 || path[strlen(folder)] != '/') return 0;
    const char *name = path + strlen(folder) + 1;
    return strchr(name, '/') || strncmp(name, "bench.db", 8) != 0 ? 0 : name;
}

static void keep(int fd)
{
    const char *folder = getenv("SYNCED_FOLDER");
    char link[64], path[4096], part[8192], kept[8192];
    ssize_t length;
    if (!folder) return;
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    length = readlink(link, path, sizeof path - 1);
    if (length <= 0) return;
    path[length] = 0;
    const char *name = name_of(path);
    if (!name) return;
    pthread_mutex_lock(&one);
    while (goes > 0) {
        snprintf(kept, sizeof kept, "%s/.synced/%s", folder, gone[--goes]);
        remove(kept);
    }
    snprintf(part, sizeof part, "%s/.synced/%s.part", folder, name);
    snprintf(kept, sizeof kept, "%s/.synced/%s", folder, name);
    int to = open(part, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    if (to >= 0) {
        static char block[1 << 16];
        off_t at = 0;
        ssize_t n;
        while ((n = pread(fd, block, sizeof block, at)) > 0) {
            if (write(to, block, n) != n) break;
            at += n;
        }
        close(to);
        rename(part, kept);
    }
    pthread_mutex_unlock(&one);
}

int unlink(const char *path)
{
    static int (*real)(const char *);
    if (!real) real = (int (*)(const char *))dlsym(RTLD_NEXT, "unlink");
    int answer = real(path);
    const char *name = answer == 0 ? name_of(path) : 0;
    if (name) {
        pthread_mutex_lock(&one);
        if (goes < 16) snprintf(gone[goes++], sizeof gone[0], "%s", name);
        pthread_mutex_unlock(&one);
    }
    return answer;
}

int fsync(int fd)
{
    static int (*real)(int);
    if (!real) real = (int (*)(int))dlsym(RTLD_NEXT, "fsync");
    int answer = real(fd);
    if (answer == 0) keep(fd);
    return answer;
}

int fdatasync(int fd)
{
    static int (*real)(int);
    if (!real) real = (int (*)(int))dlsym(RTLD_NEXT, "fdatasync");
    int answer = real(fd);
    if (answer == 0) keep(fd);
    return answer;
}
