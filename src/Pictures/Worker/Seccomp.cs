using System.Runtime.InteropServices;

namespace HeirloomArchive.Pictures;

/// <summary>
/// The worker gives up, for good and for all its threads, what it never needs once it is up: opening any file, changing any,
/// the network, other programs and processes, signals and limits of others. A filter of the kernel's (seccomp with BPF) answers
/// such calls with "not permitted"; memory, threads and the open standard streams are left.
/// </summary>
internal static class Seccomp
{
    private const int NoNewPrivileges = 38; // PR_SET_NO_NEW_PRIVS
    private const uint Allow = 0x7FFF0000, Refuse = 0x00050001, Missing = 0x00050026, End = 0x80000000; // Refuse: EPERM; Missing: ENOSYS.
    private const ushort Load = 0x20, Equal = 0x15, AtLeast = 0x35, AnyBit = 0x45, Return = 0x06;
    private const uint ThreadFlag = 0x10000; // CLONE_THREAD

    /// <summary>Puts the filter in place, and tries whether it holds.</summary>
    /// <returns>False where there is none for this system, or it doesn't let us.</returns>
    public static bool Enter()
    {
        if (!OperatingSystem.IsLinux() || Calls() is not { } calls)
        {
            return false;
        }

        _ = Native.prctl(0, 0, 0, 0, 0); // Bound before the filter, like those that are tried behind it.
        _ = Native.open("", 0);
        _ = Native.socket(-1, 0, 0);
        _ = NotPermitted(0);
        return Filtered(calls) && Native.open("/", 0) == -1 && Native.socket(1, 1, 0) == -1 // A stream socket of this machine.
            && NotPermitted(calls.SignalThread) && NotPermitted(calls.Limit);
    }

    /// <summary>No process has the number -1: the kernel would call that wrong, the filter says "not permitted".</summary>
    private static bool NotPermitted(uint call) => Native.syscall((nint)call, -1, -1, 0) == -1 && Marshal.GetLastPInvokeError() == 1; // EPERM

    private static bool Filtered(SystemCalls calls)
    {
        if (Native.prctl(NoNewPrivileges, 1, 0, 0, 0) != 0)
        {
            return false;
        }

        var filter = Filter(calls);
        var pinned = GCHandle.Alloc(filter, GCHandleType.Pinned);
        try
        {
            var program = new Program { Length = (ushort)filter.Length, Filter = pinned.AddrOfPinnedObject() };
            return Native.syscall(calls.Seccomp, 1, 1, ref program) == 0; // SECCOMP_SET_MODE_FILTER for every thread (TSYNC).
        }
        finally
        {
            pinned.Free();
        }
    }

    /// <summary>
    /// Checks the machine, then refuses by number; a call for a new thread is let through, one for a process not, a signal to a
    /// thread and a limit only where they are its own.
    /// </summary>
    private static Instruction[] Filter(SystemCalls calls)
    {
        List<Instruction> filter =
        [
            new(Load, 0, 0, 4), new(Equal, 1, 0, calls.Machine), new(Return, 0, 0, End),
            new(Load, 0, 0, 0), new(AtLeast, 0, 1, 0x40000000), new(Return, 0, 0, End), // Calls of the x32 kind.
            new(Equal, 0, 1, calls.NewTask3), new(Return, 0, 0, Missing), // The library then takes the older call, which can be looked into.
            .. Only(calls.NewTask, AnyBit, ThreadFlag), .. Only(calls.SignalThread, Equal, (uint)Environment.ProcessId), .. Only(calls.Limit, Equal, 0),
        ];
        foreach (var call in calls.Refused)
        {
            filter.AddRange([new(Equal, 0, 1, call), new(Return, 0, 0, Refuse)]);
        }

        return [.. filter, new(Return, 0, 0, Allow)];
    }

    /// <summary>A call that is let through where its first argument is so, and else refused.</summary>
    private static Instruction[] Only(uint call, ushort test, uint value) =>
        [new(Equal, 0, 4, call), new(Load, 0, 0, 16), new(test, 1, 0, value), new(Return, 0, 0, Refuse), new(Return, 0, 0, Allow)];

    private static SystemCalls? Calls() => RuntimeInformation.ProcessArchitecture switch
    {
        Architecture.X64 => new(0xC000003E, 317, 56, 435, 234, 302, [.. X64, .. Newer, .. ThreadAlone(200)]),
        Architecture.Arm64 => new(0xC00000B7, 277, 220, 435, 131, 261, [.. Arm64, .. Newer, .. ThreadAlone(130)]),
        _ => null,
    };

    /// <summary>tkill, which does not say whose the thread is; the C library musl signals its own threads by it.</summary>
    private static uint[] ThreadAlone(uint call) => RuntimeInformation.RuntimeIdentifier.Contains("musl", StringComparison.Ordinal) ? [] : [call];

    /// <summary>
    /// Of arch/x86/entry/syscalls/syscall_64.tbl: open, creat, openat, name_to_handle_at, open_by_handle_at; socket, connect,
    /// accept, sendto, sendmsg, bind, listen, socketpair, accept4, sendmmsg; fork, vfork, execve, execveat, kill, rt_sigqueueinfo,
    /// rt_tgsigqueueinfo, ptrace, process_vm_readv and writev; truncate, ftruncate, rename, mkdir, rmdir, link, unlink, symlink, chmod, fchmod, chown, fchown,
    /// lchown, mknod, mkdirat, mknodat, fchownat, unlinkat, renameat, linkat, symlinkat, fchmodat, renameat2, utime, utimes,
    /// utimensat, setxattr to fremovexattr; mount, umount2, pivot_root, chroot, unshare, setns; setuid to setfsgid; bpf,
    /// perf_event_open, userfaultfd, keyctl, add_key, request_key, memfd_create; shmget, msgget, semget, mq_open; io_setup.
    /// </summary>
    private static IEnumerable<uint> X64 =>
    [
        2, 85, 257, 303, 304, 41, 42, 43, 44, 46, 49, 50, 53, 288, 307, 57, 58, 59, 322, 62, 129, 297, 101, 310, 311,
        76, 77, 82, 83, 84, 86, 87, 88, 90, 91, 92, 93, 94, 133, 258, 259, 260, 263, 264, 265, 266, 268, 316, 132, 235, 280,
        188, 189, 190, 197, 198, 199, 165, 166, 155, 161, 272, 308, 105, 106, 113, 114, 116, 117, 119, 122, 123,
        321, 298, 323, 250, 248, 249, 319, 29, 68, 64, 240, 206,
    ];

    /// <summary>The same of include/uapi/asm-generic/unistd.h, as far as there they are.</summary>
    private static IEnumerable<uint> Arm64 =>
    [
        56, 264, 265, 198, 203, 202, 206, 211, 200, 201, 199, 242, 269, 221, 281, 129, 138, 240, 117, 270, 271,
        45, 46, 38, 34, 37, 35, 36, 52, 55, 33, 54, 53, 276, 88,
        5, 6, 7, 14, 15, 16, 40, 39, 41, 51, 97, 268, 146, 144, 145, 143, 147, 149, 159, 151, 152,
        280, 241, 282, 219, 217, 218, 279, 194, 186, 190, 180, 0,
    ];

    /// <summary>Numbers that are the same everywhere: pidfd_send_signal, io_uring_setup, enter and register, pidfd_open, openat2, pidfd_getfd, fchmodat2, move_mount, fsopen.</summary>
    private static IEnumerable<uint> Newer => [424, 425, 426, 427, 434, 437, 438, 452, 429, 430];

    // The machine as the kernel numbers it; its calls seccomp, clone, clone3, tgkill and prlimit64; those refused whatever they ask.
    private sealed record SystemCalls(uint Machine, int Seccomp, uint NewTask, uint NewTask3, uint SignalThread, uint Limit, IEnumerable<uint> Refused);

    [StructLayout(LayoutKind.Sequential)]
    private readonly record struct Instruction(ushort Code, byte IfTrue, byte IfFalse, uint Value);

    [StructLayout(LayoutKind.Sequential)]
    private struct Program
    {
        public ushort Length;
        public IntPtr Filter;
    }

    private static class Native
    {
#pragma warning disable IDE1006, SYSLIB1054, CA2101 // The system's own names.
        [DllImport("libc", SetLastError = true)]
        public static extern int prctl(int option, nuint a, nuint b, nuint c, nuint d);

        [DllImport("libc", SetLastError = true)]
        public static extern nint syscall(nint number, nuint operation, nuint flags, ref Program program);

        [DllImport("libc", SetLastError = true)]
        public static extern nint syscall(nint number, nint group, nint thread, nint signal);

        [DllImport("libc", SetLastError = true)]
        public static extern int open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);

        [DllImport("libc", SetLastError = true)]
        public static extern int socket(int domain, int type, int protocol);
#pragma warning restore IDE1006, SYSLIB1054, CA2101
    }
}
