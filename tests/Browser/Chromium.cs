using System.Collections.Concurrent;
using System.Diagnostics;
using System.Reflection;
using System.Text.Json.Nodes;
using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(HeirloomArchive.Support.PostgresServer))]
[assembly: AssemblyFixture(typeof(HeirloomArchive.Browser.Tests.Chromium))]

namespace HeirloomArchive.Browser.Tests;

/// <summary>
/// The browser of a run: the one that <c>HEIRLOOM_CHROMIUM</c> names, else the npm package's, unpacked once for each of its
/// versions, else the machine's own. With <c>HEIRLOOM_SLOW=4</c> its pages run a fourth as fast, to see what only a quick machine hides.
/// </summary>
public sealed class Chromium : IAsyncLifetime
{
    private static readonly string[] Args =
    [
        "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ];

    private readonly ConcurrentQueue<(string? Class, string? Test, IBrowserContext Context)> open = new();
    private IPlaywright? playwright;
    private IBrowser? browser;

    /// <summary>The folder of this project's source.</summary>
    public static string Folder { get; } =
        typeof(Chromium).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().Single(a => a.Key == "BrowserFolder").Value!;

    public async ValueTask InitializeAsync()
    {
        var (path, libraries) = Find();
        playwright = await Playwright.CreateAsync();
        // A machine that does much else answers late; what never comes is still told.
        Assertions.SetDefaultExpectTimeout(60_000);
        try
        {
            browser = await Launch(path, null);
        }
        catch (PlaywrightException) when (libraries is not null)
        {
            // A bare machine lacks what the browser links to; the package brings that too.
            browser = await Launch(path, libraries);
        }
    }

    /// <summary>A new page at an archive, as if on a device of its own.</summary>
    /// <param name="archive">Where it is.</param>
    /// <param name="script">Whether script runs.</param>
    /// <param name="width">In CSS pixels.</param>
    /// <param name="dark">Whether the device is set to dark.</param>
    /// <param name="touch">Whether it is used with the fingers.</param>
    /// <param name="zoom">How many times as large everything is shown; width is what then remains of the window.</param>
    /// <param name="still">Whether the device asks for no motion.</param>
    /// <param name="language">What the browser asks for; a country's English if not said.</param>
    public async Task<IPage> Open(Uri archive, bool script = true, int width = 1280, bool dark = false, bool touch = false, int zoom = 1, bool still = false, string? language = null)
    {
        await Close();
        var context = await browser!.NewContextAsync(new()
        {
            BaseURL = archive.ToString(), JavaScriptEnabled = script, ViewportSize = new() { Width = width, Height = zoom > 1 ? 1024 / zoom : width < 500 ? 780 : 900 },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light, Locale = language is null ? "en-GB" : null, HasTouch = touch, DeviceScaleFactor = zoom,
            ExtraHTTPHeaders = language is null ? null : [KeyValuePair.Create("Accept-Language", language)],
            ReducedMotion = still ? ReducedMotion.Reduce : ReducedMotion.NoPreference,
        });
        context.SetDefaultTimeout(60_000);
        open.Enqueue((TestContext.Current.TestClass?.UniqueID, TestContext.Current.Test?.UniqueID, context));
        var page = await context.NewPageAsync();
        if (int.TryParse(Environment.GetEnvironmentVariable("HEIRLOOM_SLOW"), out var slower))
        {
            await (await context.NewCDPSessionAsync(page)).SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = slower });
        }

        return page;
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null) await browser.DisposeAsync();
        playwright?.Dispose();
    }

    // Those of the tests before in this class, which would go on doing what they do.
    private async Task Close()
    {
        var (ours, now) = (TestContext.Current.TestClass?.UniqueID, TestContext.Current.Test?.UniqueID);
        for (var left = open.Count; left > 0 && open.TryDequeue(out var one); left--)
        {
            if (one.Class == ours && one.Test != now) await one.Context.CloseAsync();
            else open.Enqueue(one);
        }
    }

    private Task<IBrowser> Launch(string path, string? libraries) => playwright!.Chromium.LaunchAsync(new()
    {
        ExecutablePath = path, Headless = true, Args = Args, Timeout = 120_000,
        Env = libraries is null ? null : new Dictionary<string, string>(Variables()) { ["LD_LIBRARY_PATH"] = libraries },
    });

    private static Dictionary<string, string> Variables() => Environment.GetEnvironmentVariables()
        .Cast<System.Collections.DictionaryEntry>().ToDictionary(v => (string)v.Key, v => (string?)v.Value ?? "");

    private static (string Path, string? Libraries) Find()
    {
        if (Environment.GetEnvironmentVariable("HEIRLOOM_CHROMIUM") is { Length: > 0 } named)
        {
            return (named, null);
        }

        var package = Path.Combine(Folder, "node_modules", "@sparticuz", "chromium", "package.json");
        if (OperatingSystem.IsLinux() && File.Exists(package))
        {
            var version = JsonNode.Parse(File.ReadAllText(package))!["version"]!.ToString();
            var unpacked = Path.Combine(Path.GetTempPath(), $"heirloom-chromium-{version}-{Environment.UserName}");
            return (Unpack(unpacked), Path.Combine(unpacked, "al2023", "lib"));
        }

        return (((string[])["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"]).FirstOrDefault(File.Exists)
            ?? throw new InvalidOperationException("There is no Chromium: run npm ci in tests/Browser, or set HEIRLOOM_CHROMIUM."), null);
    }

    // The package unpacks into the temporary folder and looks at no version: a folder for each, and one process at a time.
    private static string Unpack(string folder)
    {
        Directory.CreateDirectory(folder);
        using var held = Hold(Path.Combine(folder, "unpack.lock"));
        const string Script = """
            import('@sparticuz/chromium').then(async c => {
              const path = await c.default.executablePath();
              await c.inflate('node_modules/@sparticuz/chromium/bin/al2023.tar.br');
              process.stdout.write(path);
            }).catch(e => { console.error(e); process.exit(1); });
            """;
        var start = new ProcessStartInfo("node", ["--input-type=module", "-e", Script])
        {
            WorkingDirectory = Folder, RedirectStandardOutput = true, RedirectStandardError = true, Environment = { ["TMPDIR"] = folder },
        };
        using var node = Process.Start(start)!;
        var wrong = node.StandardError.ReadToEndAsync();
        var path = node.StandardOutput.ReadToEnd();
        node.WaitForExit();
        return node.ExitCode == 0 ? path : throw new InvalidOperationException($"The browser does not unpack: {wrong.Result}");
    }

    private static FileStream Hold(string path)
    {
        for (var tries = 0; ; tries++)
        {
            try
            {
                return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (tries < 1_200)
            {
                Thread.Sleep(100);
            }
        }
    }
}
