using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using HeirloomArchive.Support;
using Microsoft.Playwright;

namespace HeirloomArchive.Browser.Tests;

/// <summary>
/// A journey with the fingers or the mouse, counted as it is felt: a tap on a link, a button or a box is one, a key pressed by
/// itself is one. A text is one for the tap into its field and one for typing it, however long it is; a choice from a list is one
/// for opening it and one for the choice; a picture is one for its field and one for choosing it. Scrolling is not counted.
/// At every page on the way nothing may lie beside the window.
/// </summary>
internal sealed class Fingers(IPage page, bool touch)
{
    public int Count { get; private set; }

    public async Task Tap(ILocator what)
    {
        // A tap waits for no page to come; what is tapped next is on it.
        await Assertions.Expect(what).ToBeVisibleAsync();
        await page.Fits();
        await (touch ? what.TapAsync() : what.ClickAsync());
        Count++;
    }

    public async Task Press(string key)
    {
        await page.Fits();
        await page.Keyboard.PressAsync(key);
        Count++;
    }

    /// <summary>A text into a field. What stood there is marked first, which is one more.</summary>
    public async Task Type(ILocator field, string text)
    {
        await Tap(field);
        // A finger's tap is told to the page a little later.
        await Assertions.Expect(field).ToBeFocusedAsync();
        if (await field.InputValueAsync() is { Length: > 0 })
        {
            await Press("ControlOrMeta+A");
        }

        await page.Keyboard.TypeAsync(text);
        Count++;
    }

    public async Task Choose(ILocator list, string value)
    {
        await Tap(list);
        await list.SelectOptionAsync(value);
        // The list that the tap has opened is closed by the choice.
        Count++;
    }

    public async Task Give(ILocator field, FilePayload picture)
    {
        var chooser = await page.RunAndWaitForFileChooserAsync(() => Tap(field));
        await chooser.SetFilesAsync(picture);
        Count++;
    }
}

/// <summary>A journey with the keyboard alone: nothing is reached but by Tab, and at each stop on the way the focus must be seen.</summary>
internal sealed class Keys(IPage page)
{
    /// <summary>Past the navigation, by the link that every page begins with.</summary>
    public async Task Skip()
    {
        await Reach(page.GetByRole(AriaRole.Link, new() { Name = "Skip to the page" }));
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**#work");
    }

    /// <summary>Tab after Tab until it has the focus.</summary>
    public async Task Reach(ILocator what)
    {
        await page.WaitForLoadStateAsync();
        for (var presses = 0; presses < 150; presses++)
        {
            await page.Keyboard.PressAsync("Tab");
            var stop = await what.EvaluateAsync($"what => {{ {Looks.Focus} return {{ here: document.activeElement === what, wrong: unseen(document.activeElement) }}; }}");
            Assert.True(stop!.Value.GetProperty("wrong").GetString() is "", $"{page.Url}: {stop.Value.GetProperty("wrong")}");
            if (stop.Value.GetProperty("here").GetBoolean())
            {
                return;
            }
        }

        Assert.Fail($"{page.Url}: 150 times Tab do not reach {what}");
    }

    public async Task Enter(ILocator what)
    {
        await Reach(what);
        await page.Keyboard.PressAsync("Enter");
    }

    public async Task Type(ILocator field, string text)
    {
        await Reach(field);
        await page.Keyboard.TypeAsync(text);
    }
}

/// <summary>Waiting for the page that comes of something.</summary>
internal static class Waits
{
    /// <summary>Pressed, and the page that comes of it is there with its styles and its script, also where both have what is looked for next.</summary>
    public static Task Follow(this ILocator what) => what.Page.Follow(() => what.ClickAsync());

    /// <summary>Done, and the page that comes of it is there with its styles and its script.</summary>
    public static async Task Follow(this IPage page, Func<Task> doing)
    {
        var came = new TaskCompletionSource();
        void Came(object? sender, IPage there) => came.TrySetResult();
        await page.WaitForLoadStateAsync();
        page.Load += Came;
        try
        {
            await doing();
            await came.Task.WaitAsync(Wait.Patience, TestContext.Current.CancellationToken);
        }
        finally
        {
            page.Load -= Came;
        }
    }
}

/// <summary>What is looked at on a page, whatever it shows.</summary>
internal static class Looks
{
    /// <summary>Script: <c>unseen(element)</c> says why the focus on it is not seen, or nothing where it is.</summary>
    internal const string Focus = """
        const light = (text) => {
          const [r, g, b] = text.match(/[\d.]+/g).map((n) => { const c = n / 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; });
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const name = (at) => at.outerHTML.replace(/\s+/g, ' ').slice(0, 160);
        const unseen = (at) => {
          if (!at || at === document.body) return '';
          // What of it lies within the window, looked at in fifteen places.
          const within = (b) => [Math.max(0, b.left), Math.max(0, b.top), Math.min(innerWidth, b.right), Math.min(innerHeight, b.bottom)];
          const points = [...at.getClientRects()].map(within).filter(([l, t, r, b]) => l < r && t < b)
            .flatMap(([l, t, r, b]) => [0.02, 0.25, 0.5, 0.75, 0.98].flatMap((x) => [0.1, 0.5, 0.9].map((y) => [l + (r - l) * x, t + (b - t) * y])));
          const part = at.closest('svg');
          const bare = points.some(([x, y]) => { const hit = document.elementFromPoint(x, y); return hit && (at.contains(hit) || part?.contains(hit) || hit.closest('label')?.control === at); });
          if (!bare) return `the focus is out of sight on ${name(at)}`;
          // A part of a drawing is drawn round instead.
          if (part) return [...at.querySelectorAll('path')].some((p) => parseFloat(getComputedStyle(p).strokeWidth) >= 3) ? '' : `the focus is not drawn on ${name(at)}`;
          // The element, or what stands for it: a tile, a big tap.
          const drawn = (e) => { const s = getComputedStyle(e); return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2; };
          let shown = at;
          while (shown && !drawn(shown)) shown = shown.parentElement;
          if (!shown) return `the focus is not drawn on ${name(at)}`;
          let under = parseFloat(getComputedStyle(shown).outlineOffset) < 0 ? shown : shown.parentElement;
          while (under && /, 0\)$/.test(getComputedStyle(under).backgroundColor)) under = under.parentElement;
          const [line, ground] = [light(getComputedStyle(shown).outlineColor), light(getComputedStyle(under ?? document.documentElement).backgroundColor)];
          const contrast = (Math.max(line, ground) + 0.05) / (Math.min(line, ground) + 0.05);
          return contrast >= 3 ? '' : `the focus is drawn at ${contrast.toFixed(1)} : 1 on ${name(at)}`;
        };
        """;

    private const string Cut = """
        () => {
          const wide = document.documentElement.clientWidth;
          const wrong = [];
          const seen = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: true, contentVisibilityAuto: true });
          const aside = (e) => e.closest('.unseen, .skip, option, [aria-hidden=true][tabindex="-1"]');
          const scroller = (e) => { for (; e && e !== document.body; e = e.parentElement) if (/auto|scroll/.test(getComputedStyle(e).overflowX)) return e; return null; };
          const name = (e) => e.outerHTML.replace(/\s+/g, ' ').slice(0, 140);
          const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
          while (texts.nextNode()) {
            const [text, around] = [texts.currentNode, texts.currentNode.parentElement];
            if (!text.data.trim() || !seen(around) || aside(around) || around.closest('script, style')) continue;
            const range = document.createRange();
            range.selectNodeContents(text);
            for (const box of range.getClientRects()) {
              if (!scroller(around) && (box.left < -1 || box.right > wide + 1)) wrong.push(`“${text.data.trim().slice(0, 60)}” runs out of the window`);
              for (let e = around; e && e !== document.body; e = e.parentElement) {
                const [style, edge] = [getComputedStyle(e), e.getBoundingClientRect()];
                if (/auto|scroll/.test(style.overflowX)) break;
                if (e instanceof HTMLElement && /hidden|clip/.test(style.overflowX) && (box.left < edge.left - 1 || box.right > edge.right + 1 || box.top < edge.top - 1 || box.bottom > edge.bottom + 1)) {
                  wrong.push(`“${text.data.trim().slice(0, 60)}” is cut off by ${name(e)}`);
                }
              }
            }
          }
          for (const at of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')) {
            if (!seen(at) || aside(at) || at.closest('svg')) continue;
            at.scrollIntoView({ block: 'center', inline: 'nearest', behavior: 'instant' });
            const boxes = [...at.getClientRects()];
            if (boxes.length === 0) continue;
            if (!scroller(at) && boxes.some((b) => b.left < -1 || b.right > wide + 1)) wrong.push(`beside the window: ${name(at)}`);
            const hit = boxes.some((b) => { const h = document.elementFromPoint(b.left + b.width / 2, b.top + b.height / 2); return h && (at.contains(h) || h.contains(at) && h.closest('a, button, label') || h.closest('label')?.control === at); });
            if (!hit) wrong.push(`not within reach: ${name(at)}`);
          }
          const stuck = [...document.querySelectorAll('body *')].filter((e) => /sticky|fixed/.test(getComputedStyle(e).position) && seen(e)).reduce((sum, e) => sum + e.getBoundingClientRect().height, 0);
          if (stuck > innerHeight / 3) wrong.push(`what stays in place takes ${Math.round(stuck)} of ${innerHeight} px`);
          return [...new Set(wrong)];
        }
        """;

    private const string Beside = """
        () => {
          const root = document.documentElement;
          const wide = root.clientWidth;
          if (root.scrollWidth <= wide) return '';
          const beyond = (e) => e.getBoundingClientRect().right + scrollX - wide;
          const held = (e) => { for (e = e.parentElement; e && e !== document.body; e = e.parentElement) if (getComputedStyle(e).overflowX !== 'visible') return true; return false; };
          const out = [...document.body.querySelectorAll('*')].filter((e) => beyond(e) > .5 && !held(e));
          const inmost = out.filter((e) => !out.some((other) => other !== e && e.contains(other)));
          const name = (e) => `${e.outerHTML.replace(/\s+/g, ' ').slice(0, 140)} by ${beyond(e).toFixed(1)} px`;
          return `${root.scrollWidth - wide} px too wide for ${wide}: ${inmost.map(name).join('\n') || 'no element sticks out'}`;
        }
        """;

    private const string Stops = $$"""
        () => {
          {{Focus}}
          const all = [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex="0"]')]
            .filter((e) => e.tabIndex >= 0 && !e.disabled && e.checkVisibility({ visibilityProperty: true }));
          const wrong = [];
          for (const at of all) {
            at.focus();
            if (document.activeElement === at) wrong.push(unseen(at));
          }
          return { stops: all.length, wrong: wrong.filter(Boolean) };
        }
        """;

    /// <summary>axe finds nothing: by all its rules, or by those named.</summary>
    public static async Task Faultless(this IPage page, string? where = null, params string[] rules)
    {
        // Before its styles have come a page looks otherwise.
        await page.WaitForLoadStateAsync();
        var found = (await page.RunAxe(rules.Length == 0 ? null : new AxeRunOptions { RunOnly = RunOnlyOptions.Rules(rules) })).Violations;
        Assert.True(found.Length == 0, $"{where ?? page.Url}: {string.Join("\n", found.Select(v => $"{v.Id}: {v.Help}: {v.Nodes[0].Html}"))}");
    }

    /// <summary>Nothing lies beside the window; what does is named, and by how much.</summary>
    public static async Task Fits(this IPage page)
    {
        await page.WaitForLoadStateAsync();
        var beyond = await page.EvaluateAsync<string>(Beside);
        Assert.True(beyond.Length == 0, $"{page.Url} is {beyond}");
    }

    /// <summary>The same at each of these widths in turn, in CSS pixels.</summary>
    public static async Task Fits(this IPage page, params int[] widths)
    {
        foreach (var width in widths)
        {
            await page.SetViewportSizeAsync(width, width < 500 ? 780 : 900);
            await page.Fits();
        }
    }

    /// <summary>No text is cut off, every link, button and field comes into reach by scrolling, and what stays in place leaves room.</summary>
    public static async Task<IReadOnlyList<string>> CutOff(this IPage page) => await page.EvaluateAsync<string[]>(Cut);

    /// <summary>Every stop of the keyboard in turn: where its focus is not seen.</summary>
    public static async Task<IReadOnlyList<string>> UnseenStops(this IPage page)
    {
        // A key first: what script gives the focus to after that is shown as if the keyboard had.
        await page.Keyboard.PressAsync("Tab");
        var found = (await page.EvaluateAsync(Stops))!.Value;
        Assert.True(found.GetProperty("stops").GetInt32() > 10, $"{page.Url} has hardly a stop");
        return [.. found.GetProperty("wrong").EnumerateArray().Select(w => w.GetString()!)];
    }
}
