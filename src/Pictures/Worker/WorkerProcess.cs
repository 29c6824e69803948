using System.Diagnostics;
using System.Text;
using HeirloomArchive.Pictures.Soundness;

namespace HeirloomArchive.Pictures;

/// <summary>One worker as the host sees it: it is handed a picture, watched, and killed when it takes too much.</summary>
internal sealed class WorkerProcess : IDisposable
{
    /// <summary>A worker is replaced after so many pictures, so that nothing in it grows old.</summary>
    public const int Lifetime = 8;

    private static readonly TimeSpan Glance = TimeSpan.FromMilliseconds(20);

    private readonly Process process;
    private readonly PictureLimits limits;
    private readonly DirectoryInfo scratch;
    private readonly StringBuilder complaint = new();
    private bool greeted;
    private bool killed; // The system may call a killed process alive for a moment yet.

    private WorkerProcess(Process process, PictureLimits limits, DirectoryInfo scratch)
    {
        this.process = process;
        this.limits = limits;
        this.scratch = scratch;
    }

    /// <summary>Pictures handed to it so far.</summary>
    public int Handed { get; private set; }

    /// <summary>True when it must not be handed another picture.</summary>
    public bool Spent => killed || Handed >= Lifetime || process.HasExited;

    public int ProcessId => process.Id;

    public static WorkerProcess Start(WorkerProgram program, PictureLimits limits)
    {
        var scratch = Directory.CreateTempSubdirectory("picture-worker-");
        try
        {
            if (!OperatingSystem.IsWindows())
            {
                // Another user must be able to stand in it; there is nothing in it to read.
                scratch.UnixFileMode |= UnixFileMode.OtherExecute;
            }

            var process = new Process { StartInfo = program.Start(limits, limits.WorkerTime * Lifetime, scratch.FullName) };
            var worker = new WorkerProcess(process, limits, scratch);
            process.ErrorDataReceived += (_, said) => worker.Hear(said.Data);
            process.Start();
            process.BeginErrorReadLine();
            return worker;
        }
        catch
        {
            scratch.Delete(recursive: true);
            throw;
        }
    }

    /// <summary>Has one picture made.</summary>
    /// <exception cref="UnsoundException">It can't be decoded, or takes more than a limit; the worker is then dead.</exception>
    /// <exception cref="WorkerDoesNotStartException">No fault of the picture's.</exception>
    public async Task<WorkerAnswer> Make(Stream file, SoundPicture sound, CancellationToken cancel)
    {
        Handed++;
        using var ended = cancel.Register(Kill);
        var started = Stopwatch.GetTimestamp();
        var talk = Talk(file, sound, cancel);
        while (await Task.WhenAny(talk, Task.Delay(Glance, CancellationToken.None)) != talk)
        {
            if (Excess(Stopwatch.GetElapsedTime(started)) is { } excess)
            {
                Kill();
                await talk.ContinueWith(_ => { }, CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
                throw new UnsoundException(excess);
            }
        }

        try
        {
            return Believed(await talk, sound);
        }
        catch (Exception e) when (e is IOException or InvalidDataException)
        {
            Kill();
            cancel.ThrowIfCancellationRequested();
            throw new UnsoundException("The picture can't be read: the separate process that reads it ended without an answer. Save it anew in another program and send that.");
        }
    }

    public void Dispose()
    {
        Kill();
        process.Dispose();
        scratch.Delete(recursive: true);
    }

    private async Task<WorkerAnswer> Talk(Stream file, SoundPicture sound, CancellationToken cancel)
    {
        if (!greeted)
        {
            var hello = new byte[1];
            greeted = await process.StandardOutput.BaseStream.ReadAsync(hello, cancel) == 1 && hello[0] == WorkerMessages.Hello;
        }

        if (!greeted)
        {
            throw killed ? new EndOfStreamException() : NotStarted();
        }

        await WorkerMessages.WriteRequest(process.StandardInput.BaseStream, sound.Format, file, cancel);
        return await WorkerMessages.ReadAnswer(process.StandardOutput.BaseStream, cancel);
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
            return new WorkerDoesNotStartException(process.StartInfo, complaint.ToString().Trim());
        }
    }

    private string? Excess(TimeSpan elapsed) =>
        elapsed > limits.WorkerTime
            ? $"The picture takes longer than {limits.WorkerTime.TotalSeconds:0.#} s to read. Send it smaller or saved in another way."
        : Resident() > limits.WorkerBytes ? NoMemory()
        : null;

    private string NoMemory() => $"The picture takes more than {limits.WorkerBytes >> 20} MiB to read. Send it smaller or saved in another way.";

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

    /// <summary>A worker taken over by a file may say anything: only what can be true is passed on.</summary>
    private WorkerAnswer Believed(WorkerAnswer answer, SoundPicture sound) => answer.Outcome switch
    {
        WorkerOutcome.NoMemory => throw new UnsoundException(NoMemory()),
        WorkerOutcome.Short => throw new UnsoundException($"The {Name(sound)} file ends as it should, but part of the picture in it is missing. Copy or send it again."),
        WorkerOutcome.Unreadable => throw new UnsoundException($"The {Name(sound)} file is whole, but what is in it can't be decoded. Save it anew in another program and send that."),
        _ when Fits(answer, sound) && PictureFormats.Of(answer.Screen) is not null && PictureFormats.Of(answer.Thumbnail) is not null => answer,
        _ => throw new InvalidDataException("The picture worker's answer does not fit the picture."),
    };

    private static string Name(SoundPicture sound) => sound.Format switch
    {
        PictureFormat.Jpeg => "JPEG",
        PictureFormat.Png => "PNG",
        _ => "WebP",
    };

    private static bool Fits(WorkerAnswer answer, SoundPicture sound) =>
        (answer.Width, answer.Height) == (sound.Width, sound.Height) || (answer.Height, answer.Width) == (sound.Width, sound.Height);

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
