using System.Collections.Concurrent;
using System.Reflection;
using HeirloomArchive;
using Xunit.v3;

[assembly: EndsInTime]

namespace HeirloomArchive;

/// <summary>
/// For every test of every room (each compiles this file): one that waits for what never comes is asked to stop after
/// <see cref="Patience"/>, and fails; one that doesn't listen ends its whole program <see cref="Last"/> after it began,
/// by name. A run that only stood still would never say where.
/// </summary>
[AttributeUsage(AttributeTargets.Assembly)]
internal sealed class EndsInTimeAttribute : BeforeAfterTestAttribute
{
    /// <summary>Several times what the longest test takes on two busy cores.</summary>
    public static readonly TimeSpan Patience = TimeSpan.FromMinutes(20);

    public static readonly TimeSpan Last = TimeSpan.FromMinutes(25);

    private readonly ConcurrentDictionary<string, Timer> running = new();

    public override void Before(MethodInfo methodUnderTest, IXunitTest test)
    {
        var began = TestContext.Current;
        var asked = false;
        running[test.UniqueID] = new Timer(
            _ =>
            {
                if (!asked)
                {
                    asked = true;
                    Console.Error.WriteLine($"asked to stop, still running after {Patience}: {test.TestDisplayName}");
                    began.CancelCurrentTest();
                    return;
                }

                Environment.FailFast($"ended with the whole run, still running after {Last}: {test.TestDisplayName}");
            },
            null,
            Patience,
            Last - Patience);
    }

    public override void After(MethodInfo methodUnderTest, IXunitTest test)
    {
        if (running.TryRemove(test.UniqueID, out var timer)) timer.Dispose();
    }
}
