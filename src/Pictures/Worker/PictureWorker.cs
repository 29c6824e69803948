using Microsoft.Win32.SafeHandles;

namespace HeirloomArchive.Pictures;

/// <summary>
/// The process that decodes: the only place where the image library runs. It opens no file; pictures come in by its
/// standard input and derivatives leave by its standard output, so whatever a crafted file does to it, it holds nothing else.
/// </summary>
public static class PictureWorker
{
    /// <summary>The hidden verb that makes the program a worker.</summary>
    public const string Verb = "picture-worker";

    /// <summary>Answers requests until its input ends. 0 always: what goes wrong with a picture is an answer.</summary>
    public static int Run(string[] args)
    {
        ArgumentNullException.ThrowIfNull(args);
        // The bare descriptors: the console's streams would look around for a terminal.
        using var input = new FileStream(new SafeFileHandle(0, ownsHandle: false), FileAccess.Read, bufferSize: 0);
        using var pipe = new FileStream(new SafeFileHandle(1, ownsHandle: false), FileAccess.Write, bufferSize: 0);
        using var output = new BufferedStream(pipe, 64 * 1024);
        Pipes.Widen();
        WarmUp();
        output.WriteByte(Seccomp.Enter() ? WorkerMessages.HelloConfined : WorkerMessages.Hello);
        output.Flush();
        byte[] buffer = [];
        while (WorkerMessages.ReadRequest(input, ref buffer) is var (kind, format, bytes))
        {
            Answer(kind, format, bytes, output);
            output.Flush();
        }

        return 0;
    }

    /// <summary>
    /// Goes each way once, those that fail too, so that all is loaded and compiled before a stranger's picture comes: from then
    /// on nothing can be opened.
    /// </summary>
    private static void WarmUp()
    {
        using var nowhere = new BufferedStream(new MemoryStream());
        foreach (var (kind, format, file) in Recipe.Samples())
        {
            using var message = new MemoryStream();
            WorkerMessages.WriteRequest(message, kind, format, new MemoryStream(file), CancellationToken.None).GetAwaiter().GetResult();
            message.Position = 0;
            byte[] buffer = [];
            var request = WorkerMessages.ReadRequest(message, ref buffer)!.Value;
            Answer(request.Kind, request.Format, request.Bytes, nowhere);
        }

        nowhere.Flush();
        foreach (var name in AppDomain.CurrentDomain.GetAssemblies().Where(a => a.GetName().Name is "SkiaSharp" or "HeirloomArchive.Pictures").SelectMany(a => a.GetReferencedAssemblies()).Where(n => n.Name!.StartsWith("System.", StringComparison.Ordinal)))
        {
            _ = System.Reflection.Assembly.Load(name);
        }
    }

    private static void Answer(WorkKind kind, PictureFormat format, ArraySegment<byte> bytes, Stream output)
    {
        var begun = false;
        try
        {
            foreach (var file in kind switch
            {
                WorkKind.First => Recipe.First(bytes, format, Begin),
                WorkKind.Rest => Recipe.Rest(bytes, format, Begin),
                _ => Recipe.Region(bytes, Begin),
            })
            {
                WorkerMessages.WriteFile(output, file);
            }

            WorkerMessages.WriteFile(output, []);
        }
        catch (PictureException e) when (!begun)
        {
            WorkerMessages.WriteHead(output, new WorkerAnswer(e.Outcome));
        }
        catch (OutOfMemoryException) when (!begun)
        {
            WorkerMessages.WriteHead(output, new WorkerAnswer(WorkerOutcome.NoMemory));
        }
        catch (Exception) when (!begun)
        {
            // Whatever goes wrong while reading means the same here. Once files have begun to come, the process ends instead.
            WorkerMessages.WriteHead(output, new WorkerAnswer(WorkerOutcome.Unreadable));
        }

        void Begin(int width, int height)
        {
            WorkerMessages.WriteHead(output, new WorkerAnswer(WorkerOutcome.Made, width, height));
            begun = true;
        }
    }
}
