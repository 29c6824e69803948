namespace HeirloomArchive.Web.Pages.Reading;

/// <summary>The way through a list: which page, of how many, and the address of each.</summary>
public sealed record Pager(int Page, int Size, long Total, Func<int, string> To)
{
    public int Pages => (int)Math.Max(1, (Total + Size - 1) / Size);
}
