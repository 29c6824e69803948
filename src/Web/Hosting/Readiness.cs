namespace HeirloomArchive.Web.Hosting;

/// <summary>Whether the service may be used, and what it does until then. Reported into by the start, asked by <c>/health/ready</c>.</summary>
public sealed class Readiness : IProgress<string>
{
    private volatile string? progress = "The service is starting.";

    /// <summary>What is being done; null once all is ready.</summary>
    public string? Progress => progress;

    public void Report(string value) => progress = value;

    public void Reach() => progress = null;
}
