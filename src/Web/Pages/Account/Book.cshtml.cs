using HeirloomArchive.Web.Accounts;
using HeirloomArchive.Web.Pages.Reading;

namespace HeirloomArchive.Web.Pages.Account;

/// <summary>For the owner: what was done, the newest first.</summary>
public sealed class BookModel(Book book) : AccountPage
{
    private const int Size = 50;

    public IReadOnlyList<BookLine> Lines { get; private set; } = [];

    public Pager Pager { get; private set; } = null!;

    public async Task OnGet(int? number, CancellationToken ct)
    {
        var page = Math.Clamp(number ?? 1, 1, 200);
        (var total, Lines) = await book.Page(page, Size, ct);
        Pager = new(page, Size, total, n => $"/account/book?number={n}");
    }
}
