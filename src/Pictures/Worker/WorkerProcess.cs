using System.ComponentModel;
using System.Diagnostics;
using System.Text;
using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>One worker as the host sees it: it is handed a picture, watched, and killed when it takes too much.</summary>
internal sealed class WorkerProcess : IDisposable
{
    /// <summary>A worker is replaced after so many pictures, so that nothing in it grows old.</summary>
    private const int Lifetime = 8;

    /// <summary>The same in regions of one picture, each a small part of the work.</summary>
    private const int Regions = 200;

    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(20);

    private readonly Process process;
    private readonly PictureLimits limits;
    private readonly StringBuilder complaint = new();
    private TimeSpan time, wait; // Of the processor, and by the clock.
    private long before; // Of the processor's time, in ticks, when it was handed the picture; the greatest number until then.
    private int pictures;
    private int regions;
    private bool greeted;
    private bool killed; // The system may call a killed process alive for a moment yet.

    private WorkerProcess(Process process, PictureLimits limits)
    {
        this.process = process;
        this.limits = limits;
        (time, wait) = (limits.WorkerTime, limits.WorkerWait);
    }

    /// <summary>True when it must not be handed another picture: it would not have the time for it that every picture has, before the system ends it.</summary>
    public bool Spent => killed || pictures >= Lifetime || regions >= Regions || process.HasExited || Used() > limits.WorkerTime * (Lifetime - 1);

    /// <summary>It said, once it was up, that it can open nothing any more.</summary>
    public bool Confined { get; private set; }

    /// <summary>Starts one; it comes up by itself while the host does other things.</summary>
    /// <exception cref="WorkerDoesNotStartException">The system starts no process.</exception>
    public static WorkerProcess Start(WorkerProgram program, PictureLimits limits)
    {
        var process = new Process { StartInfo = program.Start(limits, limits.WorkerTime * Lifetime) };
        var worker = new WorkerProcess(process, limits);
        process.ErrorDataReceived += (_, said) => worker.Hear(said.Data);
        try
        {
            process.Start();
        }
        catch (Win32Exception e)
        {
            process.Dispose();
            throw new WorkerDoesNotStartException(process.StartInfo, e.Message);
        }

        process.BeginErrorReadLine();
        return worker;
    }

    /// <summary>Has one picture made.</summary>
    /// <exception cref="UnsoundException">It can't be decoded, or takes more than a limit; the worker is then dead.</exception>
    /// <exception cref="WorkerDoesNotStartException">No fault of the picture's.</exception>
    public async Task<WorkerAnswer> Make(WorkOrder order, CancellationToken cancel)
    {
        _ = order.Kind == WorkKind.Region ? regions++ : pictures++;
        using var ended = cancel.Register(Kill);
        var started = Stopwatch.GetTimestamp();
        Volatile.Write(ref before, long.MaxValue);
        var talk = Talk(order, cancel);
        while (await Task.WhenAny(talk, Task.Delay(Glance, CancellationToken.None)) != talk)
        {
            if (Excess(Stopwatch.GetElapsedTime(started)) is { } excess)
            {
                Kill();
                await talk.ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
                throw greeted ? new UnsoundException(excess) : new WorkerDoesNotStartException(process.StartInfo, $"it was not up after {Stopwatch.GetElapsedTime(started).TotalSeconds:0} s");
            }
        }

        try
        {
            return await talk;
        }
        catch (Exception e) when (e is IOException or InvalidDataException)
        {
            Kill();
            cancel.ThrowIfCancellationRequested();
            throw new UnsoundException(() => T("The picture can't be read: the separate process that reads it ended without an answer. Save it anew in another program and send that."));
        }
    }

    /// <summary>Lets every other process go first; for its one picture it may take what the system lets a worker take in all.</summary>
    public void StandBack()
    {
        (time, wait) = (limits.WorkerTime * Lifetime, limits.WorkerWait * Lifetime);
        try
        {
            process.PriorityClass = ProcessPriorityClass.BelowNormal;
        }
        catch (Exception e) when (e is InvalidOperationException or Win32Exception)
        {
            // It has ended, or the system does not let us: then it works as all others do.
        }
    }

    public void Dispose()
    {
        Kill();
        process.Dispose();
    }

    private async Task<WorkerAnswer> Talk(WorkOrder order, CancellationToken cancel)
    {
        if (!greeted)
        {
            var hello = new byte[1];
            greeted = await process.StandardOutput.BaseStream.ReadAsync(hello, cancel) == 1 && hello[0] is WorkerMessages.Hello or WorkerMessages.HelloConfined;
            Confined = hello[0] == WorkerMessages.HelloConfined;
        }

        if (!greeted)
        {
            throw killed ? new EndOfStreamException() : NotStarted();
        }

        // Its coming up is not the picture's.
        Volatile.Write(ref before, Used().Ticks);
        await using (var file = order.Open())
        {
            await WorkerMessages.WriteRequest(process.StandardInput.BaseStream, order.Kind, order.Format, file, cancel);
        }

        return await Hear(order, process.StandardOutput.BaseStream, cancel);
    }

    /// <summary>A worker taken over by a file may say anything: only what can be true is passed on.</summary>
    private async Task<WorkerAnswer> Hear(WorkOrder order, Stream said, CancellationToken cancel)
    {
        var answer = await WorkerMessages.ReadHead(said, cancel);
        switch (answer.Outcome)
        {
            case WorkerOutcome.NoMemory:
                throw new UnsoundException(NoMemory);
            case WorkerOutcome.Short:
                throw new UnsoundException(() => T($"The {Name(order)} file ends as it should, but part of the picture in it is missing. Copy or send it again."));
            case WorkerOutcome.Unreadable:
                throw new UnsoundException(() => T($"The {Name(order)} file is whole, but what is in it can't be decoded. Save it anew in another program and send that."));
        }

        if (!order.CanMeasure(answer.Width, answer.Height))
        {
            throw new InvalidDataException("The picture worker's answer does not fit the picture.");
        }

        order.Begin(answer.Width, answer.Height);
        foreach (var (format, longest) in order.Expected(answer.Width, answer.Height))
        {
            if (await WorkerMessages.ReadFile(said, longest, cancel) is not { } file || PictureFormats.Of(file) != format)
            {
                throw new InvalidDataException("The picture worker's answer does not fit the picture.");
            }

            await order.Take(answer, file);
        }

        return await WorkerMessages.ReadFile(said, 0, cancel) is null ? answer : throw new InvalidDataException("The picture worker says more than it was asked.");
    }

    /// <summary>Before it is handed a file its errors are the runtime's own words; later ones are read and thrown away.</summary>
    private void Hear(string? said)
    {
        lock (complaint)
        {
            if (!greeted && complaint.Length < 1000)
            {
                complaint.AppendLine(said);
            }
        }
    }

    private WorkerDoesNotStartException NotStarted()
    {
        process.WaitForExit(1000);
        lock (complaint)
        {
            return new WorkerDoesNotStartException(process.StartInfo, $"{complaint.ToString().Trim()} ({(process.HasExited ? $"exit {process.ExitCode}" : "still running")})") { Killed = process.HasExited && process.ExitCode > 128 };
        }
    }

    private Func<string>? Excess(TimeSpan elapsed) =>
        Used().Ticks - Volatile.Read(ref before) > time.Ticks
            ? () => T($"The picture takes more than {time.TotalSeconds:0.#} s of the processor's time to read. Send it smaller or saved in another way.")
        : elapsed > wait
            ? () => T($"The picture was not read within {wait.TotalSeconds:0.#} s. Send it again when the computer is less busy, smaller, or saved in another way.")
        : Resident() > limits.WorkerBytes ? NoMemory
        : null;

    private string NoMemory() => T($"The picture takes more than {limits.WorkerBytes >> 20} MiB to read. Send it smaller or saved in another way.");

    /// <summary>The processor's time that all its threads have taken so far.</summary>
    private TimeSpan Used()
    {
        try
        {
            return process.TotalProcessorTime;
        }
        catch (Exception e) when (e is IOException or InvalidOperationException or Win32Exception)
        {
            return TimeSpan.Zero; // It has just ended; the talk says so.
        }
    }

    /// <summary>Bytes of memory the worker holds now.</summary>
    private long Resident()
    {
        try
        {
            if (OperatingSystem.IsLinux())
            {
                var pages = File.ReadAllText($"/proc/{process.Id}/statm").Split(' ')[1];
                return long.Parse(pages, System.Globalization.CultureInfo.InvariantCulture) * Environment.SystemPageSize;
            }

            process.Refresh();
            return process.WorkingSet64;
        }
        catch (Exception e) when (e is IOException or InvalidOperationException or IndexOutOfRangeException)
        {
            return 0; // It has just ended; the talk says so.
        }
    }

    private static string Name(WorkOrder order) => order.Format switch
    {
        PictureFormat.Jpeg => "JPEG",
        PictureFormat.Png => "PNG",
        _ => "WebP",
    };

    private void Kill()
    {
        killed = true;
        try
        {
            process.Kill();
        }
        catch (InvalidOperationException)
        {
            // It has ended already.
        }
    }
}
