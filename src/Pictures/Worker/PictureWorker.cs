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
        using var input = Console.OpenStandardInput();
        using var output = new BufferedStream(Console.OpenStandardOutput(), 64 * 1024);
        Recipe.WarmUp();
        output.WriteByte(WorkerMessages.Hello);
        output.Flush();
        byte[] buffer = [];
        while (WorkerMessages.ReadRequest(input, ref buffer) is var (kind, format, bytes))
        {
            Answer(kind, format, bytes, output);
            output.Flush();
        }

        return 0;
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
